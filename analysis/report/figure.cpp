#include "analysis/report/figure.h"

namespace footing {

double text_px(TextSize size) {
    switch (size) {
        case TextSize::small:
            return 13.0;
        case TextSize::text:
            return 16.0;
        case TextSize::heading:
            return 22.0;
        case TextSize::figure:
            return 88.0;
    }
    return 16.0;
}

}  // namespace footing
