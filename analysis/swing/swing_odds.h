#pragma once

#include "analysis/swing/swing_likeness.h"
#include "analysis/swing/swing_signs.h"

namespace footing {

/// Natural logarithm of the odds that a candidate with these signs is a swing: above 0 it is more likely one
/// than not. The sum of what each sign says by itself, a line through a few points, level beyond them
/// (docs/formulas.md, F22); fitted by logistic regression to the movements of thirteen authors' made-up
/// golfers (tests/bench/swing_odds).
[[nodiscard]] double swing_log_odds(const SwingSigns& signs);

/// The same where it is known, too, how like the golfer's sure swings the candidate is; `by_signs`: what its
/// signs alone tell. Fitted as they are.
[[nodiscard]] double swing_log_odds(double by_signs, const Likeness& likeness);

}  // namespace footing
