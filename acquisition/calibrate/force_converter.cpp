#include "acquisition/calibrate/force_converter.h"

#include <algorithm>
#include <cassert>

namespace footing {

ForceConverter::ForceConverter(const Calibration& calibration)
    : newtons_per_count_(calibration.newtons_per_count),
      zero_counts_(calibration.zero_counts),
      matrix_(calibration.cell_matrix),
      deflections_(calibration.cell_matrix.empty() ? 0 : calibration.newtons_per_count.size(), 0.0),
      newtons_(calibration.newtons_per_count.size(), 0.0) {
    assert(matrix_.empty() || matrix_.size() == newtons_.size() * newtons_.size());
}

void ForceConverter::set_zero(std::span<const double> zero_counts) {
    assert(zero_counts.size() == zero_counts_.size());
    std::copy(zero_counts.begin(), zero_counts.end(), zero_counts_.begin());
}

void ForceConverter::apply_matrix() {
    const std::size_t values = newtons_.size();
    for (std::size_t row = 0; row < values; ++row) {
        double force_n = 0.0;
        for (std::size_t column = 0; column < values; ++column)
            force_n += matrix_[row * values + column] * deflections_[column];
        newtons_[row] = force_n;
    }
}

std::span<const double> ForceConverter::convert(const FrameValues& raw) {
    if (const auto* physical = std::get_if<std::span<const double>>(&raw)) {
        if (newtons_per_count_.empty()) return *physical;
    }
    std::visit(
        [&](const auto& counts) {
            assert(counts.size() == newtons_.size());
            if (!matrix_.empty()) {
                for (std::size_t i = 0; i < newtons_.size(); ++i)
                    deflections_[i] = static_cast<double>(counts[i]) - zero_counts_[i];
                apply_matrix();
                return;
            }
            for (std::size_t i = 0; i < newtons_.size(); ++i) {
                newtons_[i] = newtons_per_count_[i] * (static_cast<double>(counts[i]) - zero_counts_[i]);
            }
        },
        raw);
    return newtons_;
}

}  // namespace footing
