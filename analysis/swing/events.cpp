#include "analysis/swing/events.h"

#include <algorithm>
#include <cmath>

#include "analysis/swing/finish.h"
#include "analysis/swing/impact.h"
#include "analysis/swing/strike_ripple.h"
#include "analysis/swing/takeaway.h"
#include "analysis/swing/turnaround.h"

namespace footing {

namespace {

// Set on made-up motions; docs/formulas.md says on which.
constexpr double top_after_turn_s = 0.04;
constexpr double top_u_s = 0.05;
/// From the turn to where the return has a quarter of its speed, known beforehand.
constexpr double turn_before_speed_s = 0.05;

/// The last still part before the takeaway.
Event find_address(const Event& takeaway, double quiet_from_s, const SwingOptions& options) {
    const double end_s = takeaway.time_s - options.address_ends_before_s;
    const double begin_s = std::max(quiet_from_s, end_s - options.address_mean_s);
    const double width_s = std::max(0.0, end_s - begin_s);
    return {end_s - 0.5 * width_s, 0.5 * width_s / std::sqrt(3.0), EventSource::estimated};
}

}  // namespace

SwingEvents find_events(const LoadTrace& trace, const SwingMotion& motion, const StanceSignals& signals,
                        const SwingCandidate& swing, std::size_t next_from, const SwingOptions& options,
                        const SwingEvents& marked, const StrikeLags& lags) {
    SwingEvents events = marked;
    const double turn_s = signals.time_s(static_cast<double>(swing.turn));
    const double arrival_s = signals.time_s(static_cast<double>(swing.arrival));
    const double quiet_to_s = signals.time_s(static_cast<double>(swing.quiet_to));
    if (!events.takeaway) events.takeaway = find_takeaway(signals, swing);
    if (events.takeaway && !events.address)
        events.address =
            find_address(*events.takeaway, signals.time_s(static_cast<double>(swing.quiet_from)), options);
    if (!events.impact && options.use_trigger)
        events.impact =
            triggered_impact(trace, std::max(quiet_to_s, turn_s - struck_before_turn_s), arrival_s + 0.3);
    if (!events.impact) {
        events.impact = estimated_impact(strike_witnesses(return_marks(motion, signals, swing)), lags);
        // However late or early this golfer strikes: not before the weight comes back, nor after the end.
        events.impact->time_s =
            std::clamp(events.impact->time_s, turn_s, std::max(turn_s, trace.time_s.back()));
        const std::optional<StrikeRipple> ripple = measure_strike_ripple(trace, events);
        if (ripple && is_seen(*ripple)) events.impact = rippled_impact(*ripple);
    }

    if (events.takeaway) {
        const std::size_t from = motion.entry(events.takeaway->time_s);
        const std::size_t to = std::max(from, motion.entry(events.impact->time_s));
        if (!events.turnaround)
            events.turnaround = find_turnaround(motion, from, to, turn_s - turn_before_speed_s);
        if (!events.top) {
            const double top_s =
                std::min(events.turnaround->time_s + top_after_turn_s, events.impact->time_s);
            events.top = Event{top_s, top_u_s, EventSource::estimated};
        }
    }
    if (!events.finish) events.finish = find_finish(signals, events.impact->time_s, swing.arrival, next_from);
    return events;
}

}  // namespace footing
