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

std::string limit_words(double metres, DistanceUnit unit) {
    constexpr double as_good_as_whole = 1e-6;
    const double value = metres / metres_per(unit);
    if (std::abs(value - std::round(value)) < as_good_as_whole) return distance_words(metres, unit);
    return distance_words(metres, unit, value < 0.1 ? 3 : 1);
}

}  // namespace footing
