#include "analysis/statistics/straight_line.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/statistics/summary.h"

namespace footing {

double StraightLine::at(double x) const {
    return intercept + slope * (x - x_reference);
}

double StraightLine::u_at(double x) const {
    const double away = x - x_reference;
    return std::sqrt(
        std::max(0.0, u_intercept * u_intercept + away * away * u_slope * u_slope + 2.0 * away * covariance));
}

Result<StraightLine> fit_straight_line(std::span<const double> x, std::span<const double> y,
                                       double x_reference) {
    const std::size_t n = std::min(x.size(), y.size());
    if (n < 3)
        return Problem{ProblemKind::bad_input, "straight line", "a line needs at least three points",
                       "measure more points"};
    const double count = static_cast<double>(n);
    const double mean_x = mean(x.first(n));
    const double mean_y = mean(y.first(n));
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
        yy += (y[i] - mean_y) * (y[i] - mean_y);
    }
    if (!(xx > 0.0))
        return Problem{ProblemKind::bad_input, "straight line", "all points lie at the same place",
                       "measure at different loads"};
    StraightLine line;
    line.points = n;
    line.x_reference = x_reference;
    line.slope = xy / xx;
    const double away = x_reference - mean_x;
    line.intercept = mean_y + line.slope * away;
    double squares = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        const double residual = (y[i] - mean_y) - line.slope * (x[i] - mean_x);
        squares += residual * residual;
    }
    const double variance = squares / (count - 2.0);
    line.residual_sd = std::sqrt(variance);
    line.u_slope = std::sqrt(variance / xx);
    line.u_intercept = std::sqrt(variance * (1.0 / count + away * away / xx));
    line.covariance = variance * away / xx;
    line.r_squared = yy > 0.0 ? 1.0 - squares / yy : 1.0;
    return line;
}

}  // namespace footing
