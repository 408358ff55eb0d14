#pragma once

#include <optional>

#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"

namespace footing {

/// Takeaway to top, top to impact (F26); absent when one of them is.
[[nodiscard]] std::optional<Tempo> measure_tempo(const SwingEvents& events);

/// Between takeaway and finish, in body weights (F29).
[[nodiscard]] std::optional<VerticalLoad> measure_vertical(const SwingMotion& motion,
                                                           const SwingEvents& events, double body_weight_n);

/// Of the speed of the share between takeaway and impact, at about 100 Hz (F27, F28).
[[nodiscard]] std::optional<Smoothness> measure_smoothness(const SwingMotion& motion,
                                                           const SwingEvents& events);

}  // namespace footing
