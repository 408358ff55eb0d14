#include "acquisition/calibrate/force_converter.h"

#include <algorithm>
#include <cassert>

namespace footing {

ForceConverter::ForceConverter(const Calibration& calibration)
    : newtons_per_count_(calibration.newtons_per_count),
      zero_counts_(calibration.zero_counts),
      newtons_(calibration.newtons_per_count.size(), 0.0) {}

void ForceConverter::set_zero(std::span<const double> zero_counts) {
    assert(zero_counts.size() == zero_counts_.size());
    std::copy(zero_counts.begin(), zero_counts.end(), zero_counts_.begin());
}

std::span<const double> ForceConverter::convert(const FrameValues& raw) {
    if (const auto* physical = std::get_if<std::span<const double>>(&raw)) {
        if (newtons_per_count_.empty()) return *physical;
    }
    std::visit(
        [&](const auto& counts) {
            assert(counts.size() == newtons_.size());
            for (std::size_t i = 0; i < newtons_.size(); ++i) {
                newtons_[i] = newtons_per_count_[i] * (static_cast<double>(counts[i]) - zero_counts_[i]);
            }
        },
        raw);
    return newtons_;
}

}  // namespace footing
