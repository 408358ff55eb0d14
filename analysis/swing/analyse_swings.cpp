#include "analysis/swing/analyse_swings.h"

#include <algorithm>
#include <cmath>

#include "analysis/swing/cop_motion.h"
#include "analysis/swing/event_span.h"
#include "analysis/swing/event_values.h"
#include "analysis/swing/events.h"
#include "analysis/swing/finish_hold.h"
#include "analysis/swing/measures.h"
#include "analysis/swing/momentum_closure.h"
#include "analysis/swing/rhythm.h"
#include "analysis/swing/share_measures.h"
#include "analysis/swing/stance_measures.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_ripple.h"
#include "analysis/swing/swing_finder.h"

namespace footing {

namespace {

constexpr double shown_before_address_s = 0.3;
constexpr double shown_after_finish_s = 0.7;
constexpr double shown_after_impact_s = 1.5;

bool is_struck(const SwingEvents& events) {
    return events.impact && events.impact->source == EventSource::measured;
}

/// By the impact that was found, since the marked one may lie elsewhere.
const CoachMark* mark_of(const Swing& swing, const CoachMarks& marks) {
    const std::optional<Event>& found =
        swing.found_events.impact ? swing.found_events.impact : swing.events.impact;
    return found ? mark_near(marks, found->time_s) : nullptr;
}

void set_span(Swing& swing, double fallback_from_s, double end_s) {
    const SwingEvents& events = swing.events;
    swing.from_s = events.address ? address_span(*events.address).from_s : fallback_from_s;
    swing.from_s = std::max(0.0, swing.from_s - shown_before_address_s);
    if (events.finish) {
        swing.to_s = events.finish->time_s + shown_after_finish_s;
    } else if (events.impact) {
        swing.to_s = events.impact->time_s + shown_after_impact_s;
    } else {
        swing.to_s = end_s;
    }
    swing.to_s = std::min(swing.to_s, end_s);
}

/// Of one swing by itself; what needs the practice swings comes when all are known.
SwingNumbers numbers_of(const LoadTrace& trace, Hand hand, const StanceSignals& signals,
                        const SwingMotion& motion, const Swing& swing, double until_s,
                        const SwingOptions& options) {
    SwingNumbers numbers;
    const SwingEvents& events = swing.events;
    if (signals.feet_known) {
        const double share_u = swing.lead_share.lowest ? swing.lead_share.lowest->u : 0.0;
        numbers.time_below = measure_time_below(motion, events, options.share_floor, share_u);
        numbers.load_return = measure_load_return(motion, events);
        numbers.abruptness = measure_abruptness(motion, events);
    }
    numbers.cop_travel = measure_cop_travel(trace, hand, events);
    numbers.momentum = measure_momentum(trace, events);
    if (events.address) {
        const EventSpan address = address_span(*events.address);
        numbers.address_sway =
            measure_short_sway(trace, hand, address.from_s, address.to_s, signals.feet_known);
    }
    numbers.finish_hold = measure_finish_hold(trace, hand, signals, events, until_s);
    return numbers;
}

}  // namespace

std::vector<Swing> analyse_swings(const LoadTrace& trace, Hand hand, const TargetBand& band,
                                  const SwingOptions& options, const CoachMarks& marks) {
    std::vector<Swing> swings;
    std::vector<bool> struck;  // by the trigger, of each swing
    const StanceSignals signals = stance_signals(trace, hand, options);
    if (signals.size() == 0 || signals.body_weight_n <= 0.0) return swings;
    const std::vector<SwingCandidate> found = find_swings(signals, options);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::size_t next_from = i + 1 < found.size() ? found[i + 1].quiet_from : signals.size() - 1;
        const SwingMotion motion = swing_motion(trace, hand, signals, found[i], next_from, options);
        Swing swing;
        swing.index = i + 1;
        swing.events = find_events(trace, motion, signals, found[i], next_from, options);
        struck.push_back(is_struck(swing.events));
        const CoachMark* mark = swing.events.impact ? mark_near(marks, swing.events.impact->time_s) : nullptr;
        if (mark != nullptr && mark->marked_as == MarkedAs::not_a_swing) {
            struck.pop_back();
            continue;
        }
        if (mark != nullptr) {
            const SwingEvents found_events = swing.events;
            swing.events =
                find_events(trace, motion, signals, found[i], next_from, options, marked_events(*mark));
            drop_contradicted(swing.events);
            for (const NamedEvent& named : named_events) {
                const std::optional<Event>& event = swing.events.*named.member;
                if (event && event->source == EventSource::coach)
                    swing.found_events.*named.member = found_events.*named.member;
            }
        }
        swing.lead_share =
            measure_shares(trace, hand, motion, swing.events, signals.feet_known, band, options);
        swing.tempo = measure_tempo(swing.events);
        swing.vertical = measure_vertical(motion, swing.events, signals.body_weight_n);
        swing.smoothness = measure_smoothness(motion, swing.events);
        measure_places(trace, hand, signals.feet_known, options, swing);
        swing.stance = measure_stance(trace, swing.events);
        swing.feet = measure_feet(trace, swing.events);
        swing.strike_ripple = measure_strike_ripple(trace, swing.events);
        swing.numbers = numbers_of(trace, hand, signals, motion, swing,
                                   signals.time_s(static_cast<double>(next_from)), options);
        set_span(swing, signals.time_s(static_cast<double>(found[i].quiet_from)), trace.time_s.back());
        swings.push_back(swing);
    }
    tell_kinds(swings, struck, marks.trigger);
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
