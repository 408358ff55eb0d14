#include "analysis/distance/carry.h"

#include <fmt/format.h>

#include <cmath>

namespace footing {

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
