#pragma once

// Made-up feet on a mat, of known load, place and direction.

#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "acquisition/frame/plate_layout.h"

namespace footing::test {

inline constexpr double degree = std::numbers::pi / 180.0;

inline Grid mat() {
    return {48, 72, 0.01, 0.01, {}};
}

/// A heel and a forefoot on the ground, 0.17 m apart, whose line is turned towards the right. The heel bears
/// `heel_n`, the forefoot `toe_n`; pressure falls to zero at the rim.
struct MadeFoot {
    PointM middle;  ///< between heel and forefoot
    double turn_rad = 0.0;
    double heel_n = 200.0;
    double toe_n = 200.0;
    double arch_n = 0.0;  ///< spread between both: joins them to one area

    void press(const Grid& grid, std::vector<double>& force_n) const {
        pad(grid, force_n, -0.085, 0.035, 0.03, heel_n);
        pad(grid, force_n, 0.085, 0.04, 0.045, toe_n);
        if (arch_n > 0.0) pad(grid, force_n, 0.0, 0.09, 0.02, arch_n);
    }

  private:
    void pad(const Grid& grid, std::vector<double>& force_n, double ahead_m, double half_length_m,
             double half_width_m, double load_n) const {
        std::vector<double> shape(force_n.size(), 0.0);
        double sum = 0.0;
        for (std::size_t row = 0; row < grid.rows; ++row) {
            for (std::size_t column = 0; column < grid.columns; ++column) {
                const PointM at = element_position(grid, row, column);
                const double x = at.x_m - middle.x_m;
                const double y = at.y_m - middle.y_m;
                const double along = x * std::sin(turn_rad) + y * std::cos(turn_rad) - ahead_m;
                const double across = x * std::cos(turn_rad) - y * std::sin(turn_rad);
                const double r = std::hypot(along / half_length_m, across / half_width_m);
                double& one = shape[row * grid.columns + column];
                one = r < 1.0 ? 1.0 - r * r : 0.0;
                sum += one;
            }
        }
        for (std::size_t i = 0; i < shape.size(); ++i) force_n[i] += load_n * shape[i] / sum;
    }
};

inline std::vector<double> stance(const std::vector<MadeFoot>& feet, const Grid& grid = mat()) {
    std::vector<double> force_n(std::size_t{grid.rows} * grid.columns, 0.0);
    for (const MadeFoot& foot : feet) foot.press(grid, force_n);
    return force_n;
}

inline double total(const std::vector<double>& force_n) {
    double sum = 0.0;
    for (const double one : force_n) sum += one;
    return sum;
}

inline const MadeFoot left_foot{{-0.2, 0.01}, -15.0 * degree, 240.0, 180.0, 0.0};
inline const MadeFoot right_foot{{0.22, -0.02}, 8.0 * degree, 120.0, 260.0, 0.0};

}  // namespace footing::test
