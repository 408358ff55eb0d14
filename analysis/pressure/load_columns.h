#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// What one frame says of the ground, as plain numbers; NaN: not known.
struct LoadRow {
    double total_n = unknown;
    double left_n = unknown;
    double right_n = unknown;
    double cop_x_m = unknown;
    double cop_y_m = unknown;
    double left_x_m = unknown;
    double left_y_m = unknown;
    double right_x_m = unknown;
    double right_y_m = unknown;
};

[[nodiscard]] inline LoadSample sample_of(const LoadRow& row) {
    const auto point = [](double x_m, double y_m) {
        return known(x_m) && known(y_m) ? std::optional(PointM{x_m, y_m}) : std::nullopt;
    };
    LoadSample sample;
    sample.total_n = row.total_n;
    sample.left_n = row.left_n;
    sample.right_n = row.right_n;
    sample.cop = point(row.cop_x_m, row.cop_y_m);
    sample.left_cop = point(row.left_x_m, row.left_y_m);
    sample.right_cop = point(row.right_x_m, row.right_y_m);
    return sample;
}

/// Many frames in a row, column by column; each as long as the others.
struct LoadColumns {
    std::vector<double> total_n;
    std::vector<double> left_n;
    std::vector<double> right_n;
    std::vector<double> cop_x_m;
    std::vector<double> cop_y_m;
    std::vector<double> left_x_m;
    std::vector<double> left_y_m;
    std::vector<double> right_x_m;
    std::vector<double> right_y_m;

    [[nodiscard]] std::size_t size() const { return total_n.size(); }
    void resize(std::size_t rows) {
        for (std::vector<double>* column :
             {&total_n, &left_n, &right_n, &cop_x_m, &cop_y_m, &left_x_m, &left_y_m, &right_x_m, &right_y_m})
            column->resize(rows);
    }
    [[nodiscard]] LoadRow row(std::size_t i) const {
        return {total_n[i],  left_n[i],   right_n[i],   cop_x_m[i],  cop_y_m[i],
                left_x_m[i], left_y_m[i], right_x_m[i], right_y_m[i]};
    }
};

}  // namespace footing
