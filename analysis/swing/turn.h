#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace footing {

/// Where a column turns, between samples, with its standard uncertainty in samples.
struct Turn {
    double sample = 0.0;
    double u_samples = 0.0;
};

/// Where it is expected before the column is looked at, and its standard uncertainty in samples.
struct ExpectedTurn {
    double sample = 0.0;
    double u_samples = 0.0;
};

/// The instant at which a column that falls and rises again turns, from both of its flanks: lowest + a (t0 -
/// t)^p before and lowest + b (t - t0)^q after, p and q 2 or 3, fitted by least squares at every t0 in
/// `search`; the t0 are weighed by exp(-misfit / (2 noise^2 alike)) and by what is expected
/// (docs/formulas.md, F25). The flanks say more of a flat turn than its lowest sample, which noise and sway
/// move about. `search_from` to `search_to` index the column; `alike` is how many neighbouring samples make
/// one independent value, `least_noise` the noise below which a fit is not believed. Absent where the flanks
/// do not both rise.
[[nodiscard]] std::optional<Turn> turn_between_flanks(std::span<const double> column, std::size_t search_from,
                                                      std::size_t search_to, double alike, double least_noise,
                                                      const ExpectedTurn& expected);

}  // namespace footing
