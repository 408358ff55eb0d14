#pragma once

#include <optional>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// For each shot, how its rhythm matches the practice swings since the shot before it, and how much more
/// abrupt it is just before impact than they are (docs/formulas.md, F41, F42). Kinds must be known; a shot
/// without a practice swing before it is left as it is.
void match_rhythm(const LoadTrace& trace, Hand hand, std::vector<Swing>& swings);

/// 100 (b d c)^(1/3): b and d the shorter over the longer backswing and downswing, c the correlation of the
/// share curves, or 0 where it is negative; without a correlation 100 sqrt(b d). Durations in seconds, above
/// 0.
[[nodiscard]] double rhythm_match_percent(const Tempo& one, const Tempo& other,
                                          std::optional<double> shape_correlation);

}  // namespace footing
