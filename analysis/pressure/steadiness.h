#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/pressure/load_trace.h"

namespace footing {

/// Posturography measures of the centre of pressure in quiet standing (docs/formulas.md, F12 to F17), in
/// centimetres as that field gives them, with the definitions of Santos & Duarte 2016 (PeerJ 4:e2648).
struct Steadiness {
    double duration_s = 0.0;  ///< samples / rate
    std::size_t samples = 0;
    double rate_hz = 0.0;
    double area_cm2 = 0.0;  ///< 95 % prediction ellipse, F form
    double velocity_cm_s = 0.0;
    double mean_frequency_hz = 0.0;
    double path_cm = 0.0;
    double rms_x_cm = 0.0;
    double rms_y_cm = 0.0;
    double range_x_cm = 0.0;
    double range_y_cm = 0.0;
    std::optional<double>
        left_share;  ///< mean of left / (left + right); absent when the feet cannot be told apart
};

/// Of CoP columns in metres, one entry a sample, all known. Fails with bad_input when there are fewer than 16
/// samples, or values that are not known.
[[nodiscard]] Result<Steadiness> steadiness(std::span<const double> x_m, std::span<const double> y_m,
                                            double rate_hz);

/// Of the part [from_s, to_s) of a trace; fails with bad_input when nobody stood there all the time.
[[nodiscard]] Result<Steadiness> steadiness(const LoadTrace& trace, double from_s, double to_s);

/// One-sided power spectral density by Welch's method (Welch 1967): periodic Hann window, density scaling,
/// mean removed from each segment. Shape of `density`: segment/2 + 1 bins, `frequency_step_hz` apart.
struct Spectrum {
    double frequency_step_hz = 0.0;
    std::vector<double> density;
};
[[nodiscard]] Spectrum welch_spectrum(std::span<const double> samples, double rate_hz, std::size_t segment,
                                      std::size_t overlap);

}  // namespace footing
