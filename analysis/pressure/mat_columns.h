#pragma once

#include <span>
#include <vector>

#include "acquisition/frame/plate_layout.h"

namespace footing {

/// A sum of vertical loads and of their moments about the origin of the plate frame.
struct LoadSum {
    double force_n = 0.0;
    double x_n_m = 0.0;
    double y_n_m = 0.0;
};

/// Load of each column of a mat and its moment across the rows (docs/formulas.md, F3): one pass over the
/// frame in the order of memory. Allocates only when it is made.
class MatColumns {
  public:
    MatColumns() = default;
    explicit MatColumns(const Grid& grid);

    /// `force_n`: newtons, shape [rows x columns]; elements below the threshold count nothing. Returns the
    /// total.
    double add_up(std::span<const double> force_n, double element_threshold_n);

    /// Shape [columns].
    [[nodiscard]] std::span<const double> load_n() const { return load_n_; }
    /// Of the columns [from, to).
    [[nodiscard]] LoadSum between(std::size_t from, std::size_t to) const;

  private:
    std::vector<double> load_n_;
    std::vector<double> moment_n_m_;
    std::vector<double> row_y_m_;
    std::vector<double> column_x_m_;
};

}  // namespace footing
