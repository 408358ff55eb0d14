#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// An exponentially weighted moving average against its limits: does a row of values drift (NIST/SEMATECH
/// e-Handbook of Statistical Methods, 6.3.2.4)?
struct MovingAverageChart {
    std::vector<double> average;  ///< one entry a value; the average after it
    std::vector<double> limit;    ///< how far from the target it may be then
    double final_limit = 0.0;  ///< for a long row and a known target: factor sd sqrt(weight / (2 - weight))
    std::optional<std::size_t> first_beyond;  ///< the first value at which it is further
};

/// `weight` of the newest value in (0, 1]; `factor` 3 by custom. The limits grow with the number of values so
/// far: final_limit sqrt(1 - (1 - weight)^(2 i)). `target_u`: standard uncertainty of a target that is itself
/// a mean of earlier values; after i values it counts with 1 - (1 - weight)^i, what the average has moved
/// away from it (docs/formulas.md, F58).
[[nodiscard]] MovingAverageChart moving_average_chart(std::span<const double> values, double target,
                                                      double sd, double weight = 0.3, double factor = 3.0,
                                                      double target_u = 0.0);

}  // namespace footing
