#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace footing {

/// The value furthest from the mean, and whether it is further than chance allows.
struct GrubbsResult {
    std::size_t index = 0;  ///< of that value
    double g = 0.0;         ///< |value - mean| / SD, SD with n - 1
    double critical = 0.0;  ///< G beyond this happens to normal values with probability alpha
    [[nodiscard]] bool is_outlier() const { return g > critical; }
};

/// Critical value of Grubbs' two-sided test for n >= 3 values (Grubbs 1969, Technometrics 11:1; NIST/SEMATECH
/// e-Handbook 1.3.5.17.1; docs/formulas.md, F50): (n-1)/sqrt(n) * sqrt(t^2 / (n-2+t^2)), t the upper
/// alpha/(2n) quantile of Student's t with n-2 degrees of freedom.
[[nodiscard]] double grubbs_critical(std::size_t n, double alpha);

/// Grubbs' two-sided test for one outlier. Nothing for fewer than three values or values without spread. G
/// can never exceed (n-1)/sqrt(n): for five values 1.789, so "beyond two SD" never happens to them.
[[nodiscard]] std::optional<GrubbsResult> grubbs_test(std::span<const double> values, double alpha);

}  // namespace footing
