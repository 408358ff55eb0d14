#pragma once

#include <cstddef>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// How long after the share has arrived on the lead side a finish is looked for.
inline constexpr double look_after_arrival_s = 3.5;

/// One swing at the recording's own rate, from well before the address ends to well after the finish: what
/// its events are timed in (docs/formulas.md, F23).
struct SwingMotion {
    std::size_t first = 0;  ///< sampling instant of the trace of the first entry
    double rate_hz = 0.0;
    double address_load_n = 0.0;
    double share_noise = 0.0;          ///< standard deviation of one sample
    double smoothing_hz = 0.0;         ///< cut-off of the smooth share
    std::vector<double> share;         ///< lead share, or the CoP told as one; as measured
    std::vector<double> smooth_share;  ///< the same, zero-lag low pass
    std::vector<double> smooth_load;   ///< total load over that of the address

    [[nodiscard]] double time_s(double entry) const { return (static_cast<double>(first) + entry) / rate_hz; }
    [[nodiscard]] std::size_t entry(double time_s) const;
};

/// `swing` is an accepted candidate; `next_from` the coarse entry where the next swing's address begins, or
/// the end.
[[nodiscard]] SwingMotion swing_motion(const LoadTrace& trace, Hand hand, const StanceSignals& signals,
                                       const SwingCandidate& swing, std::size_t next_from,
                                       const SwingOptions& options);

}  // namespace footing
