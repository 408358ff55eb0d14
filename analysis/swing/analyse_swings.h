#pragma once

#include <optional>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/coach_marks.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// What the same golfer's swings before a trace begins tell of those in it, in order of time.
struct EarlierSwings {
    std::vector<StrikeWitnesses> strikes_s;  ///< Swing::strike_after_witnesses_s of those that teach()
    std::vector<SwingPortrait> portraits;    ///< Swing::portrait
};

/// Finds every swing in a recording, its events and its numbers (docs/formulas.md, F18 to F30). Time and
/// memory grow linearly with the recording's length. Swings come in order of time, index from 1. What cannot
/// be found is absent. The coach's marks win: what was found stays beside them, and a swing that is marked as
/// none is left out while the others keep their numbers. Strikes that trigger or ripple tell of say when this
/// golfer strikes (Swing::strike_after_witnesses_s), which times the impacts that nothing tells of but share
/// and load; sure swings say what others look like.
[[nodiscard]] std::vector<Swing> analyse_swings(const LoadTrace& trace, Hand hand, const TargetBand& band,
                                                const SwingOptions& options = {},
                                                const CoachMarks& marks = {},
                                                const EarlierSwings& earlier = {});

/// Body weight: the median of the load while somebody stands still (docs/formulas.md, F18). Absent when
/// nobody did.
[[nodiscard]] std::optional<double> body_weight_n(const LoadTrace& trace, const SwingOptions& options = {});

}  // namespace footing
