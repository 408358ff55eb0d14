#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_motion.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// The six events of the contract table (docs/formulas.md, F23 to F26). Those in `marked` are taken as they
/// are, and the others follow from them: the address from the takeaway, the turnaround between takeaway and
/// impact. `lags`: what is known of when this golfer strikes.
[[nodiscard]] SwingEvents find_events(const LoadTrace& trace, const SwingMotion& motion,
                                      const StanceSignals& signals, const SwingCandidate& swing,
                                      std::size_t next_from, const SwingOptions& options,
                                      const SwingEvents& marked = {}, const StrikeLags& lags = {});

}  // namespace footing
