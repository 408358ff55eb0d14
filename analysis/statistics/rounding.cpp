#include "analysis/statistics/rounding.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

// Below this an uncertainty shown with one decimal is not yet "1.0".
constexpr double one_unit = 0.95;

double power_of_ten(int decimals) {
    return std::pow(10.0, decimals);
}

}  // namespace

std::string rounded(double value, int decimals) {
    if (!std::isfinite(value)) return fmt::format("{}", value);
    constexpr double hidden_half = 1e-9;  // of the last decimal: what sums and units lose
    const double scaled = std::abs(value) * power_of_ten(decimals);
    const double whole = std::floor(scaled + 0.5 + hidden_half);
    const std::string digits = fmt::format("{:.{}f}", whole / power_of_ten(decimals), decimals);
    return value < 0.0 && whole > 0.0 ? "−" + digits : digits;
}

std::string chance_words(double p) {
    constexpr double least = 0.001;
    return p < least ? "p < " + rounded(least, 3) : "p = " + rounded(p, 3);
}

int decimals_borne(double expanded) {
    return expanded < one_unit ? 1 : 0;
}

ValueWords rounded_to_uncertainty(double value, double expanded, int most_decimals) {
    const int decimals = std::min(decimals_borne(expanded), most_decimals);
    return {rounded(value, decimals),
            rounded(std::max(std::abs(expanded), 1.0 / power_of_ten(decimals)), decimals)};
}

}  // namespace footing
