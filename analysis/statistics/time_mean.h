#pragma once

#include <span>

namespace footing {

/// Mean of a stretch of samples at even spacing, with the standard uncertainty that noise and sway leave to
/// it.
struct TimeMean {
    double mean = 0.0;
    double u = 0.0;
};

/// How alike neighbouring samples may be; seconds.
struct TimeMeanOptions {
    double block_s = 0.05;      ///< noise may be alike for this long (filters of the device, mains hum)
    double sway_alike_s = 0.4;  ///< sway within this long counts as one value
};

/// Mean and its standard uncertainty (JCGM 100:2008, 4.2.3, with independent values replaced by means over
/// blocks, so that samples which resemble their neighbours are not counted as many): the noise of a block
/// mean is taken from the differences of neighbouring blocks (von Neumann et al. 1941, Ann. Math. Stat.
/// 12:153), which slow sway hardly moves; what the block means scatter beyond that is sway. Few blocks raise
/// the noise by Student's t (GUM, G.3). Values that are not known are left out; fewer than two known ones
/// give NaN.
[[nodiscard]] TimeMean time_mean(std::span<const double> values, double rate_hz,
                                 const TimeMeanOptions& options = {});

/// Standard deviation of a mean over `window_s` of what these samples scatter from one such window to the
/// next; NaN when they are shorter than three windows.
[[nodiscard]] double noise_of_window_mean(std::span<const double> values, double rate_hz, double window_s);

}  // namespace footing
