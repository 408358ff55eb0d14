#pragma once

namespace footing {

/// Quantiles by Boost.Math. `p` in (0, 1), degrees of freedom above 0.
[[nodiscard]] double student_t_quantile(double p, double degrees_of_freedom);
[[nodiscard]] double f_quantile(double p, double degrees_of_freedom_1, double degrees_of_freedom_2);
[[nodiscard]] double normal_quantile(double p);

/// Probability of a value up to `x`.
[[nodiscard]] double student_t_probability(double x, double degrees_of_freedom);

}  // namespace footing
