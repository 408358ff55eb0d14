#pragma once

#include <optional>

#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// How long the smoothed lead share was under `floor` between takeaway and finish, or impact where there is
/// no finish (docs/formulas.md, F34). `share_u` is the standard uncertainty of the lowest share.
[[nodiscard]] std::optional<TimeBelow> measure_time_below(const SwingMotion& motion,
                                                          const SwingEvents& events, double floor,
                                                          double share_u);

/// Highest speed of the smoothed lead share between turnaround and impact (F36).
[[nodiscard]] std::optional<LoadReturn> measure_load_return(const SwingMotion& motion,
                                                            const SwingEvents& events);

/// Root mean square third derivative of the lead share before impact (F41); without the ratio, which needs
/// the practice swings.
[[nodiscard]] std::optional<Abruptness> measure_abruptness(const SwingMotion& motion,
                                                           const SwingEvents& events);

}  // namespace footing
