#include "analysis/swing/share_words.h"

#include <fmt/format.h>

#include <cmath>

#include "analysis/statistics/rounding.h"

namespace footing {

std::string share_numbers(const ShareValue& share) {
    constexpr double coverage = 2.0;  // k of the expanded uncertainty, GUM 6.2
    const double percent = share.value * 100.0;
    if (!std::isfinite(share.u) || share.u <= 0.0) return rounded(percent, 0);
    const ValueWords words = rounded_to_uncertainty(percent, share.u * 100.0 * coverage);
    return words.value + " ± " + words.expanded;
}

std::string share_words(const ShareValue& share) {
    return share_numbers(share) + " %";
}

std::string share_short(double share) {
    return rounded(share * 100.0, 0) + " %";
}

std::string band_words(const TargetBand& band) {
    return fmt::format("{:g} to {:g} %", band.low * 100.0, band.high * 100.0);
}

std::string ratio_words(double ratio) {
    return rounded(ratio, 1) + " : 1";
}

}  // namespace footing
