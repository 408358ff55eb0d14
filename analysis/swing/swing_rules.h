#pragma once

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_evidence.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// How large a shift of the share and a push look that are worth a closer look; what is seen is weighed in
/// these.
inline constexpr double look_share = 0.03;
inline constexpr double look_push_bw = 0.05;

/// What can be a swing of one kind or another, and what cannot (docs/formulas.md, F22): fills in the
/// candidate's push, weight, whether it departed, and its verdict. Its return and address were found.
/// `load_tells`: the vertical load of this recording moves at all.
void apply_swing_rules(SwingCandidate& candidate, const StanceSignals& signals, const SwingOptions& options,
                       const SwingEvidence& evidence, bool load_tells);

}  // namespace footing
