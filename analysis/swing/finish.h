#pragma once

#include <cstddef>
#include <optional>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"

namespace footing {

/// The first still moment after the impact (docs/formulas.md, F26); `arrival` and `next_from` are coarse
/// entries, the latter where the next swing's address begins. None where it is not seen.
[[nodiscard]] std::optional<Event> find_finish(const StanceSignals& signals, double impact_s,
                                               std::size_t arrival, std::size_t next_from);

}  // namespace footing
