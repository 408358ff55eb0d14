#include "acquisition/frame/swing_length.h"

namespace footing {

std::string length_name(SwingLength length) {
    switch (length) {
        case SwingLength::half:
            return "half";
        case SwingLength::three_quarter:
            return "three-quarter";
        case SwingLength::full:
            return "full";
    }
    return "";
}

std::optional<SwingLength> length_called(std::string_view name) {
    for (const SwingLength length : swing_lengths) {
        if (name == length_name(length)) return length;
    }
    if (name == "1/2") return SwingLength::half;
    if (name == "3/4") return SwingLength::three_quarter;
    return std::nullopt;
}

}  // namespace footing
