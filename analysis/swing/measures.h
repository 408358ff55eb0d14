#pragma once

#include <optional>

#include "analysis/pressure/load_trace.h"
#include "analysis/swing/events.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Lead shares at the events with their uncertainties and verdicts (docs/formulas.md, F30). All absent where
/// the feet cannot be told apart.
[[nodiscard]] SwingShares measure_shares(const LoadTrace& trace, const SwingMotion& motion,
                                         const SwingEvents& events, bool feet_known, const TargetBand& band,
                                         const SwingOptions& options);

/// Takeaway to top, top to impact (F26); absent when one of them is.
[[nodiscard]] std::optional<Tempo> measure_tempo(const SwingEvents& events);

/// Between takeaway and finish, in body weights (F29).
[[nodiscard]] std::optional<VerticalLoad> measure_vertical(const SwingMotion& motion,
                                                           const SwingEvents& events, double body_weight_n);

/// Of the speed of the share between takeaway and impact, at about 100 Hz (F27, F28).
[[nodiscard]] std::optional<Smoothness> measure_smoothness(const SwingMotion& motion,
                                                           const SwingEvents& events);

/// CoP at the events, stance frame.
[[nodiscard]] SwingCop measure_cop(const LoadTrace& trace, Hand hand, const SwingEvents& events,
                                   const SwingOptions& options);

}  // namespace footing
