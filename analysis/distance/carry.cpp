#include "analysis/distance/carry.h"

#include <fmt/format.h>

#include <cmath>

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

double metres_per(DistanceUnit unit) {
    return unit == DistanceUnit::yards ? metres_per_yard : 1.0;
}

std::string unit_name(DistanceUnit unit) {
    return unit == DistanceUnit::yards ? "yd" : "m";
}

std::string distance_words(double metres, DistanceUnit unit, int decimals) {
    const std::string digits = fmt::format("{:.{}f}", std::abs(metres / metres_per(unit)), decimals);
    const bool is_zero = digits.find_first_not_of("0.") == std::string::npos;
    return (metres < 0.0 && !is_zero ? "−" : "") + digits + " " + unit_name(unit);
}

}  // namespace footing
