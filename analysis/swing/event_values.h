#pragma once

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Lead shares at the events with their uncertainties and verdicts (docs/formulas.md, F30, G1 to G8). All
/// absent where the feet cannot be told apart.
[[nodiscard]] SwingShares measure_shares(const LoadTrace& trace, Hand hand, const SwingMotion& motion,
                                         const SwingEvents& events, bool feet_known, const TargetBand& band,
                                         const SwingOptions& options);

/// Fills in the centres of pressure at the swing's events, of both feet together and of each, with their
/// uncertainties; stance frame.
void measure_places(const LoadTrace& trace, Hand hand, bool feet_known, const SwingOptions& options,
                    Swing& swing);

}  // namespace footing
