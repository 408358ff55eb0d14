#pragma once

#include <span>

namespace footing {

/// Spectral arc length of a speed profile (Balasubramanian et al. 2012, IEEE TBME 59:2126; 2015, J NeuroEng
/// Rehabil 12:112; docs/formulas.md, F27): zero-padded by 2^4, cut at 10 Hz and at the last bin of at least 5
/// % of the largest. Nearer zero is smoother; independent of amplitude. NaN for fewer than 8 samples or a
/// speed that is all zero.
[[nodiscard]] double spectral_arc_length(std::span<const double> speed, double rate_hz,
                                         double cutoff_hz = 10.0);

/// Log dimensionless jerk of a speed profile (the same source; docs/formulas.md, F28).
[[nodiscard]] double log_dimensionless_jerk(std::span<const double> speed, double rate_hz);

}  // namespace footing
