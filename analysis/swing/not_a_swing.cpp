#include "analysis/swing/not_a_swing.h"

namespace footing {

std::string name_of(NotASwing reason) {
    switch (reason) {
        case NotASwing::none:
            return "swing";
        case NotASwing::nobody_stands:
            return "nobody stands";
        case NotASwing::no_quiet_address:
            return "no quiet address";
        case NotASwing::too_small:
            return "too small";
        case NotASwing::too_slow:
            return "too slow";
        case NotASwing::not_held:
            return "not held";
        case NotASwing::one_foot_lifted:
            return "one foot lifted";
        case NotASwing::anothers_load:
            return "another's load";
        case NotASwing::no_backswing:
            return "no backswing";
        case NotASwing::unlikely:
            return "unlikely";
    }
    return "unknown";
}

}  // namespace footing
