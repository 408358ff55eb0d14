#include "analysis/swing/analyse_swings.h"

#include <utility>

#include "analysis/swing/rhythm.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/strike_ripple.h"
#include "analysis/swing/swing_judge.h"

namespace footing {

namespace {

/// By the impact that was found, since the marked one may lie elsewhere.
const CoachMark* mark_of(const Swing& swing, const CoachMarks& marks) {
    const std::optional<Event>& found =
        swing.found_events.impact ? swing.found_events.impact : swing.events.impact;
    return found ? mark_near(marks, found->time_s) : nullptr;
}

/// By the trigger, of each swing as it was found.
std::vector<bool> struck_of(const std::vector<Swing>& swings) {
    std::vector<bool> struck;
    for (const Swing& swing : swings) {
        const std::optional<Event>& found = swing.found_events.impact;
        struck.push_back(is_struck(swing.events) || (found && found->source == EventSource::measured));
    }
    return struck;
}

}  // namespace

std::vector<Swing> analyse_swings(const LoadTrace& trace, Hand hand, const TargetBand& band,
                                  const SwingOptions& options, const CoachMarks& marks,
                                  const EarlierSwings& earlier) {
    const SwingJudge judge(trace, hand, band, options, marks, earlier.portraits);
    std::vector<StrikeWitnesses> strikes_s = earlier.strikes_s;
    const StrikeLags known_before = learn_strike_lags(strikes_s);
    std::vector<Swing> swings;
    for (std::size_t i = 0; i < judge.found(); ++i) {
        if (std::optional<Swing> swing = judge.judge(i, known_before)) swings.push_back(std::move(*swing));
    }
    tell_kinds(swings, struck_of(swings), marks.trigger);
    for (const Swing& swing : swings) {
        const CoachMark* mark = mark_of(swing, marks);
        const bool called_practice = mark != nullptr && mark->kind == SwingKind::practice;
        if (teaches(swing) && !called_practice) strikes_s.push_back(*swing.strike_after_witnesses_s);
    }
    // Now that more of this golfer's strikes are known, those that nothing but load tells can be told better.
    if (strikes_s.size() > earlier.strikes_s.size()) {
        const StrikeLags lags = learn_strike_lags(strikes_s);
        for (Swing& swing : swings) {
            if (teaches(swing)) continue;
            if (std::optional<Swing> again = judge.judge(swing.index - 1, lags)) swing = std::move(*again);
        }
        tell_kinds(swings, struck_of(swings), marks.trigger);
    }
    for (Swing& swing : swings) {
        const CoachMark* mark = mark_of(swing, marks);
        if (mark == nullptr || !mark->kind) continue;
        swing.found_kind = swing.kind;
        swing.kind = *mark->kind;
        swing.kind_source = KindSource::coach;
    }
    match_rhythm(trace, hand, swings);
    return swings;
}

std::optional<double> body_weight_n(const LoadTrace& trace, const SwingOptions& options) {
    const StanceSignals signals = stance_signals(trace, Hand::right, options);
    if (signals.body_weight_n <= 0.0) return std::nullopt;
    return signals.body_weight_n;
}

}  // namespace footing
