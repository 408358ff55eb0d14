#pragma once

#include <optional>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_finder.h"

namespace footing {

/// When share and forward CoP leave the address (docs/formulas.md, F24); none where they hardly do.
[[nodiscard]] std::optional<Event> find_takeaway(const StanceSignals& signals, const SwingCandidate& swing);

}  // namespace footing
