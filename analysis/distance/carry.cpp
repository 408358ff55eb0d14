#include "analysis/distance/carry.h"

#include <fmt/format.h>

#include <cmath>

#include "analysis/statistics/rounding.h"

namespace footing {

double metres_per(DistanceUnit unit) {
    return unit == DistanceUnit::yards ? metres_per_yard : 1.0;
}

std::string unit_name(DistanceUnit unit) {
    return unit == DistanceUnit::yards ? "yd" : "m";
}

std::string distance_words(double metres, DistanceUnit unit, int decimals) {
    return rounded(metres / metres_per(unit), decimals) + " " + unit_name(unit);
}

std::string distance_words(double metres, double half_width_m, DistanceUnit unit) {
    const ValueWords words =
        rounded_to_uncertainty(metres / metres_per(unit), half_width_m / metres_per(unit), 0);
    return words.value + " ± " + words.expanded + " " + unit_name(unit);
}

std::string beyond_reach_words(double carry_m, DistanceUnit unit) {
    if (carry_m <= wedge_reach_m) return "";
    return fmt::format("{} is farther than any wedge carries ({})", distance_words(carry_m, unit),
                       distance_words(wedge_reach_m, unit));
}

std::string limit_words(double metres, DistanceUnit unit) {
    constexpr double as_good_as_whole = 1e-6;
    const double value = metres / metres_per(unit);
    if (std::abs(value - std::round(value)) < as_good_as_whole) return distance_words(metres, unit);
    return distance_words(metres, unit, value < 0.1 ? 3 : 1);
}

}  // namespace footing
