#pragma once

#include <vector>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_evidence.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/swing_signs.h"

namespace footing {

/// The signs of a candidate whose address, turn, arrival and push are known. `unrest`: how much moves in the
/// quiet window that ends at each entry, in units of what counts as still.
[[nodiscard]] SwingSigns signs_of(const SwingCandidate& candidate, const StanceSignals& signals,
                                  const SwingOptions& options, const SwingEvidence& evidence,
                                  const std::vector<double>& unrest);

}  // namespace footing
