#pragma once

#include <optional>
#include <vector>

#include "analysis/pressure/load_trace.h"
#include "analysis/swing/coach_marks.h"
#include "analysis/swing/swing.h"

namespace footing {

/// The jolt that a strike sends through the body into the ground, as the total load shows it between 20 and
/// 60 Hz about the impact, against what was in that band from the address to before the strike, and what the
/// body itself did between 10 and 20 Hz meanwhile (docs/formulas.md, F22c). [Our own; no source.] Nothing
/// where the rate is under 200 Hz, where an event it stands on is absent, or where frames were lost there.
[[nodiscard]] std::optional<StrikeRipple> measure_strike_ripple(const LoadTrace& trace,
                                                                const SwingEvents& events);

/// Whether the load rippled as it does when a ball is struck, and neither by what the swing did before nor by
/// a short push of the body.
[[nodiscard]] bool is_seen(const StrikeRipple& ripple);

/// When the strike was, as a ripple that is seen tells it.
[[nodiscard]] Event rippled_impact(const StrikeRipple& ripple);

/// Shot or practice of each swing, from the trigger and the ripples of all of them: what the trigger or the
/// ripple tells of is a shot; where ripples tell of strikes in other swings, and would have told of one here,
/// a swing without is practice, and so is one without a trigger where that speaks in others and never misses;
/// else nobody knows. Sets `kind` and `kind_source`. `struck`: whether the trigger told of a strike, one
/// entry a swing.
void tell_kinds(std::vector<Swing>& swings, const std::vector<bool>& struck, TriggerTrust trust);

}  // namespace footing
