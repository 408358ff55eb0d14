#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

/// A zero as a note for the recording: "zeroed on the empty plates; moved by +0.4 N in 6.2 min, noise 0.3 N".
[[nodiscard]] std::string zero_note(const ZeroEvent& zero, FrameKind kind);

/// Why no zero can be taken now, as a sentence for the coach; empty when there is no reason.
[[nodiscard]] std::string refusal_words(ZeroRefusal refusal);

/// What to do about the zero, as a sentence for the coach; empty when it is fine.
[[nodiscard]] std::string advice_words(ZeroAdvice advice);

/// How the zero moved between the zeros of a recording. The first one's shift is no drift and is left out.
struct ZeroDrift {
    std::size_t zeros = 0;
    std::vector<double> largest_n;  ///< one a plate: largest shift of its load between two zeros
    std::vector<double> u_n;  ///< one a plate: standard uncertainty of its load from drift between zeros
    double n_per_min = 0.0;   ///< fastest drift of the total
};

/// Between two zeros nobody knows when the drift came: a load is off by anything from nothing to the whole
/// shift, so its standard uncertainty is shift / sqrt(3) (GUM, 4.3.7). `plate_of_value`: one a value.
[[nodiscard]] ZeroDrift zero_drift(std::span<const ZeroEvent> zeros,
                                   const std::vector<double>& newtons_per_count,
                                   const std::vector<std::size_t>& plate_of_value);

}  // namespace footing
