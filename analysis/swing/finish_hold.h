#pragma once

#include <optional>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing.h"

namespace footing {

/// How long and how steadily the finish was held (docs/formulas.md, F40). Looked for until `until_s`, where
/// the next address begins or the recording ends.
[[nodiscard]] std::optional<FinishHold> measure_finish_hold(const LoadTrace& trace, Hand hand,
                                                            const StanceSignals& signals,
                                                            const SwingEvents& events, double until_s);

}  // namespace footing
