#include "analysis/statistics/calibration_fit.h"

#include <algorithm>
#include <cmath>

#include "analysis/statistics/distributions.h"

namespace footing {

Result<CellCalibration> fit_cell(std::span<const LoadReading> readings) {
    std::vector<double> force_n;
    std::vector<double> counts;
    for (const LoadReading& reading : readings) {
        if (reading.direction == LoadDirection::held) continue;
        force_n.push_back(reading.force_n);
        counts.push_back(reading.counts);
    }
    const Result<StraightLine> fitted = fit_straight_line(force_n, counts);
    if (!fitted) return fitted.problem();
    CellCalibration cell;
    cell.line = fitted.value();
    const StraightLine& line = cell.line;
    if (!(std::abs(line.slope) > 4.0 * line.u_slope) || line.slope == 0.0) {
        return Problem{ProblemKind::bad_input, "calibration line", "the cell does not answer to the load",
                       "see that the mass stands on this cell and that the cell is plugged in"};
    }
    cell.degrees_of_freedom = static_cast<int>(line.points) - 2;
    cell.newtons_per_count = 1.0 / line.slope;
    cell.zero_counts = line.intercept;
    // gain = 1 / slope, so d gain = - gain^2 d slope.
    const double sensitivity = -cell.newtons_per_count * cell.newtons_per_count;
    cell.u_newtons_per_count = std::abs(sensitivity) * line.u_slope;
    cell.u_zero_counts = line.u_intercept;
    cell.covariance = sensitivity * line.covariance;
    cell.residual_sd_n = line.residual_sd * std::abs(cell.newtons_per_count);
    cell.terms = load_cell_terms(readings, line);
    return cell;
}

double covering_factor(double degrees_of_freedom) {
    constexpr double two_sided_9545 = 0.977249868;  // normal distribution function at 2
    return student_t_quantile(two_sided_9545, std::max(1.0, degrees_of_freedom)) / 2.0;
}

double rectangular_u(double half_width) {
    return std::abs(half_width) / std::sqrt(3.0);
}

}  // namespace footing
