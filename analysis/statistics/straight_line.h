#pragma once

#include <cstddef>
#include <span>

#include "acquisition/frame/result.h"

namespace footing {

/// y = intercept + slope (x - x_reference), by least squares, with standard uncertainties and covariance
/// (JCGM 100:2008 (GUM), H.3; docs/formulas.md, F31).
struct StraightLine {
    double x_reference = 0.0;
    double intercept = 0.0;
    double slope = 0.0;
    double u_intercept = 0.0;
    double u_slope = 0.0;
    double covariance = 0.0;
    double residual_sd = 0.0;  ///< with n - 2
    double r_squared = 0.0;
    std::size_t points = 0;

    [[nodiscard]] double at(double x) const;
    /// Standard uncertainty of at(x), with the covariance.
    [[nodiscard]] double u_at(double x) const;
};

/// At least three points, not all at the same x; else bad_input.
[[nodiscard]] Result<StraightLine> fit_straight_line(std::span<const double> x, std::span<const double> y,
                                                     double x_reference = 0.0);

}  // namespace footing
