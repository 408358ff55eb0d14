#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// How badly a start at each sample fits a column that is at rest first and has left for good at its end: the
/// least-squares misfit of level + slope * max(0, t - t0)^power, with the power that fits best, less the
/// least one, over the column's own noise variance (docs/formulas.md, F24). Shape of the column; infinite
/// where a start cannot be. Empty for a column too short.
[[nodiscard]] std::vector<double> onset_misfit(std::span<const double> column, std::span<const double> powers,
                                               double least_noise);

/// An instant between samples with its standard uncertainty, in samples.
struct Onset {
    double sample = 0.0;
    double u_samples = 0.0;
};

/// The most likely start by the misfits of one or more columns together and what is known beforehand: about
/// `expected_sample`, give or take `expected_u`. `alike` is how many neighbouring samples make one
/// independent value.
[[nodiscard]] std::optional<Onset> most_likely_onset(std::span<const std::vector<double>> misfits,
                                                     double alike, double expected_sample, double expected_u);

}  // namespace footing
