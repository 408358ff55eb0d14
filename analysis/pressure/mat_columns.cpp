#include "analysis/pressure/mat_columns.h"

#include <algorithm>
#include <cstddef>

namespace footing {

MatColumns::MatColumns(const Grid& grid) : load_n_(grid.columns), moment_n_m_(grid.columns) {
    for (std::size_t row = 0; row < grid.rows; ++row) row_y_m_.push_back(element_position(grid, row, 0).y_m);
    for (std::size_t column = 0; column < grid.columns; ++column)
        column_x_m_.push_back(element_position(grid, 0, column).x_m);
}

double MatColumns::add_up(std::span<const double> force_n, double element_threshold_n) {
    // Both sums run over neighbours in memory and none waits for the one before it, so that the processor
    // does several columns at once.
    const std::size_t columns = load_n_.size();
    std::ranges::fill(load_n_, 0.0);
    std::ranges::fill(moment_n_m_, 0.0);
    double* const load = load_n_.data();
    double* const moment = moment_n_m_.data();
    for (std::size_t row = 0; row < row_y_m_.size(); ++row) {
        const double* const from = force_n.data() + row * columns;
        const double y_m = row_y_m_[row];
        for (std::size_t column = 0; column < columns; ++column) {
            const double value = from[column] >= element_threshold_n ? from[column] : 0.0;
            load[column] += value;
            moment[column] += value * y_m;
        }
    }
    double total_n = 0.0;
    for (const double column_n : load_n_) total_n += column_n;
    return total_n;
}

LoadSum MatColumns::between(std::size_t from, std::size_t to) const {
    LoadSum sum;
    for (std::size_t column = from; column < to; ++column) {
        sum.force_n += load_n_[column];
        sum.x_n_m += load_n_[column] * column_x_m_[column];
        sum.y_n_m += moment_n_m_[column];
    }
    return sum;
}

}  // namespace footing
