#pragma once

#include <span>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/frame.h"

namespace footing {

/// Counts to newtons, frame by frame. Raw counts become newton values (cells, grid), by each value's own
/// scale or by the cell matrix where the calibration holds one; values that are physical already (components,
/// imports in newtons) pass unchanged. Allocates only when it is made.
class ForceConverter {
  public:
    /// The calibration must have passed check_calibration for the device whose frames come.
    explicit ForceConverter(const Calibration& calibration);

    /// From now on an empty plate reads these counts; one a value of a frame.
    void set_zero(std::span<const double> zero_counts);

    /// Newtons (N and N m for components), one a value, in the frame's order; valid until the next call.
    [[nodiscard]] std::span<const double> convert(const FrameValues& raw);

    /// The same for frames in a row: `raw` and `into` of shape [frames x values].
    void convert_rows(const FrameValues& raw, std::span<double> into);

  private:
    template <typename Count>
    void convert_row(const Count* counts, double* newtons);
    void apply_matrix(double* newtons);

    std::vector<double> newtons_per_count_;
    std::vector<double> zero_counts_;
    std::vector<double> matrix_;       ///< row-major [value, value]; empty: each value stands for itself
    std::vector<double> deflections_;  ///< counts less zero; for the matrix only
    std::vector<double> newtons_;
};

}  // namespace footing
