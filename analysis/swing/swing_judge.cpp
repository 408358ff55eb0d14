#include "analysis/swing/swing_judge.h"

#include <algorithm>

#include "analysis/swing/cop_motion.h"
#include "analysis/swing/event_span.h"
#include "analysis/swing/event_values.h"
#include "analysis/swing/events.h"
#include "analysis/swing/finish_hold.h"
#include "analysis/swing/impact.h"
#include "analysis/swing/measures.h"
#include "analysis/swing/momentum_closure.h"
#include "analysis/swing/share_measures.h"
#include "analysis/swing/stance_measures.h"
#include "analysis/swing/strike_ripple.h"

namespace footing {

namespace {

constexpr double shown_before_address_s = 0.3;
constexpr double shown_after_finish_s = 0.7;
constexpr double shown_after_impact_s = 1.5;

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

bool is_struck(const SwingEvents& events) {
    return events.impact && events.impact->source == EventSource::measured;
}

SwingJudge::SwingJudge(const LoadTrace& trace, Hand hand, const TargetBand& band, const SwingOptions& options,
                       const CoachMarks& marks, std::span<const SwingPortrait> earlier)
    : trace_(trace),
      hand_(hand),
      band_(band),
      options_(options),
      marks_(marks),
      signals_(stance_signals(trace, hand, options)) {
    if (signals_.size() > 0 && signals_.body_weight_n > 0.0) found_ = find_swings(signals_, options, earlier);
}

std::optional<Swing> SwingJudge::judge(std::size_t place, const StrikeLags& lags) const {
    const SwingCandidate& found = found_[place];
    const std::size_t next_from =
        place + 1 < found_.size() ? found_[place + 1].quiet_from : signals_.size() - 1;
    const SwingMotion motion = swing_motion(trace_, hand_, signals_, found, next_from, options_);
    const auto events_with = [&](const SwingEvents& marked) {
        return find_events(trace_, motion, signals_, found, next_from, options_, marked, lags);
    };
    Swing swing;
    swing.index = place + 1;
    swing.events = events_with({});
    swing.strike_after_witnesses_s = strike_after_witnesses_s(motion, found, swing.events);
    if (found.sure) swing.portrait = found.portrait;
    const CoachMark* mark = swing.events.impact ? mark_near(marks_, swing.events.impact->time_s) : nullptr;
    if (mark != nullptr && mark->marked_as == MarkedAs::not_a_swing) return std::nullopt;
    if (mark != nullptr) {
        const SwingEvents found_events = swing.events;
        swing.events = events_with(marked_events(*mark));
        drop_contradicted(swing.events);
        for (const NamedEvent& named : named_events) {
            const std::optional<Event>& event = swing.events.*named.member;
            if (event && event->source == EventSource::coach)
                swing.found_events.*named.member = found_events.*named.member;
        }
    }
    measure(swing, motion, found, signals_.time_s(static_cast<double>(next_from)));
    return swing;
}

/// Where the trigger or a ripple tells of the strike.
std::optional<StrikeWitnesses> SwingJudge::strike_after_witnesses_s(const SwingMotion& motion,
                                                                    const SwingCandidate& swing,
                                                                    const SwingEvents& events) const {
    if (!events.impact) return std::nullopt;
    if (!is_struck(events)) {
        const std::optional<StrikeRipple> ripple = measure_strike_ripple(trace_, events);
        if (!ripple || !is_seen(*ripple)) return std::nullopt;
    }
    StrikeWitnesses later_s = strike_witnesses(return_marks(motion, signals_, swing));
    for (std::optional<double>& time_s : later_s) {
        if (time_s) time_s = events.impact->time_s - *time_s;
    }
    return later_s;
}

void SwingJudge::measure(Swing& swing, const SwingMotion& motion, const SwingCandidate& found,
                         double until_s) const {
    swing.lead_share =
        measure_shares(trace_, hand_, motion, swing.events, signals_.feet_known, band_, options_);
    swing.tempo = measure_tempo(swing.events);
    swing.vertical = measure_vertical(motion, swing.events, signals_.body_weight_n);
    swing.smoothness = measure_smoothness(motion, swing.events);
    measure_places(trace_, hand_, signals_.feet_known, options_, swing);
    swing.stance = measure_stance(trace_, swing.events);
    swing.feet = measure_feet(trace_, swing.events);
    swing.strike_ripple = measure_strike_ripple(trace_, swing.events);
    swing.numbers = numbers_of(trace_, hand_, signals_, motion, swing, until_s, options_);
    set_span(swing, signals_.time_s(static_cast<double>(found.quiet_from)), trace_.time_s.back());
}

}  // namespace footing
