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

void ForceConverter::apply_matrix(double* newtons) {
    const std::size_t values = deflections_.size();
    for (std::size_t row = 0; row < values; ++row) {
        double force_n = 0.0;
        for (std::size_t column = 0; column < values; ++column)
            force_n += matrix_[row * values + column] * deflections_[column];
        newtons[row] = force_n;
    }
}

template <typename Count>
void ForceConverter::convert_row(const Count* counts, double* newtons) {
    const std::size_t values = newtons_.size();
    const double* const zero = zero_counts_.data();
    if (!matrix_.empty()) {
        for (std::size_t i = 0; i < values; ++i) deflections_[i] = static_cast<double>(counts[i]) - zero[i];
        apply_matrix(newtons);
        return;
    }
    const double* const scale = newtons_per_count_.data();
    for (std::size_t i = 0; i < values; ++i)
        newtons[i] = scale[i] * (static_cast<double>(counts[i]) - zero[i]);
}

std::span<const double> ForceConverter::convert(const FrameValues& raw) {
    if (const auto* physical = std::get_if<std::span<const double>>(&raw)) {
        if (newtons_per_count_.empty()) return *physical;
    }
    std::visit(
        [&](const auto& counts) {
            assert(counts.size() == newtons_.size());
            convert_row(counts.data(), newtons_.data());
        },
        raw);
    return newtons_;
}

void ForceConverter::convert_rows(const FrameValues& raw, std::span<double> into) {
    assert(value_count(raw) == into.size());
    if (const auto* physical = std::get_if<std::span<const double>>(&raw)) {
        if (newtons_per_count_.empty()) {
            std::ranges::copy(*physical, into.begin());
            return;
        }
    }
    std::visit(
        [&](const auto& counts) {
            for (std::size_t at = 0; at + newtons_.size() <= counts.size() && !newtons_.empty();
                 at += newtons_.size())
                convert_row(counts.data() + at, into.data() + at);
        },
        raw);
}

}  // namespace footing
