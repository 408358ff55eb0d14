#pragma once

#include <optional>

#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"

namespace footing {

/// Whether the vertical impulse over the swing balances (docs/formulas.md, F38): whoever is at rest before
/// and after has a mean load of one body weight in between, whatever happens there. Needs address and finish.
[[nodiscard]] std::optional<MomentumClosure> measure_momentum(const LoadTrace& trace,
                                                              const SwingEvents& events);

}  // namespace footing
