#include "analysis/swing/event_values.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "analysis/pressure/mean_stance.h"
#include "analysis/statistics/time_mean.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

TraceStretch stretch_of(const LoadTrace& trace, const EventSpan& span) {
    return stretch_between(trace, span.from_s, span.to_s);
}

/// The turnaround is timed by the flanks; the lowest share itself may be a little beside it.
Event lowest_event(const SwingMotion& motion, const SwingEvents& events) {
    Event event = *events.turnaround;
    if (!events.takeaway || !events.impact) return event;
    const auto begin = motion.smooth_share.begin();
    const std::size_t from = motion.entry(events.takeaway->time_s);
    const std::size_t to = std::max(from, motion.entry(events.impact->time_s));
    const auto lowest = std::min_element(begin + static_cast<std::ptrdiff_t>(from),
                                         begin + static_cast<std::ptrdiff_t>(to) + 1);
    event.time_s = motion.time_s(static_cast<double>(lowest - begin));
    return event;
}

}  // namespace

SwingShares measure_shares(const LoadTrace& trace, Hand hand, const SwingMotion& motion,
                           const SwingEvents& events, bool feet_known, const TargetBand& band,
                           const SwingOptions& options) {
    SwingShares shares;
    if (!feet_known) return shares;
    const auto judged = [&](double share, double u) {
        return ShareValue{share, u, judge(share, u, band, options.sure)};
    };
    const auto mean_over = [&](TraceStretch stretch) -> std::optional<ShareValue> {
        if (stretch.size() < 2) return std::nullopt;
        const auto share = mean_stance(trace, stretch, hand, options.loads).lead_share;
        if (!share) return std::nullopt;
        return judged(share->value, share->u);
    };

    // A low pass at f averages as long as a window of 0.45 / f does.
    double smoothed_noise =
        motion.share_noise * std::sqrt(std::min(1.0, 2.2 * motion.smoothing_hz / motion.rate_hz));
    if (events.address) {
        const TraceStretch resting = stretch_of(trace, address_span(*events.address));
        const std::size_t begin = std::max(resting.begin, motion.first) - motion.first;
        const std::size_t end =
            std::min(resting.end - std::min(resting.end, motion.first), motion.share.size());
        if (begin < end) {
            const double seen = noise_of_window_mean(std::span(motion.share).subspan(begin, end - begin),
                                                     motion.rate_hz, 0.45 / motion.smoothing_hz);
            if (known(seen)) smoothed_noise = std::max(smoothed_noise, seen);
        }
    }
    /// At an instant that is itself only known to u_s: the share's slope makes a share of it.
    const auto at_instant = [&](const Event& event) -> std::optional<ShareValue> {
        const std::size_t entry = motion.entry(event.time_s);
        const double share = motion.smooth_share[entry];
        if (!known(share)) return std::nullopt;
        const double before = motion.smooth_share[motion.entry(event.time_s - event.u_s)];
        const double after = motion.smooth_share[motion.entry(event.time_s + event.u_s)];
        const double by_time = std::max(std::abs(after - share), std::abs(share - before));
        const TraceStretch here = stretch_of(trace, instant_span(event));
        const double systematic = options.loads.of(mean_load(trace, here)).share;
        if (!known(systematic)) return std::nullopt;
        return judged(share, std::hypot(smoothed_noise, by_time, systematic));
    };

    if (events.address) shares.address = mean_over(stretch_of(trace, address_span(*events.address)));
    if (events.turnaround) {
        shares.turnaround = at_instant(*events.turnaround);
        shares.lowest = at_instant(lowest_event(motion, events));
    }
    if (events.top) shares.top = at_instant(*events.top);
    if (events.impact) shares.impact = at_instant(*events.impact);
    if (events.finish) {
        // The finish is only known to u_s: what the hold does in that time belongs to the uncertainty.
        const EventSpan held = finish_span(*events.finish);
        const double later_s = events.finish->u_s;
        const std::optional<ShareValue> share = mean_over(stretch_of(trace, held));
        const std::optional<ShareValue> later =
            mean_over(stretch_of(trace, {held.from_s + later_s, held.to_s + later_s}));
        shares.finish = share;
        if (share && later)
            shares.finish = judged(share->value, std::hypot(share->u, later->value - share->value));
    }
    return shares;
}

void measure_places(const LoadTrace& trace, Hand hand, bool feet_known, const SwingOptions& options,
                    Swing& swing) {
    const SwingEvents& events = swing.events;
    const auto put = [&](std::optional<PointM> SwingCop::*member, const MeanStance& stance) {
        const auto fill = [&](SwingCop& cop, SwingCop& cop_u, const std::optional<KnownPoint>& point) {
            if (!point) return;
            cop.*member = point->at;
            if (known(point->u.x_m) && known(point->u.y_m)) cop_u.*member = point->u;
        };
        fill(swing.cop_m, swing.cop_u_m, stance.cop);
        if (!feet_known) return;
        fill(swing.lead.cop_m, swing.lead.cop_u_m, stance.lead_cop);
        fill(swing.trail.cop_m, swing.trail.cop_u_m, stance.trail_cop);
    };
    TraceStretch resting;
    if (events.address) {
        resting = stretch_of(trace, address_span(*events.address));
        put(&SwingCop::address, mean_stance(trace, resting, hand, options.loads));
    }
    const auto put_instant = [&](std::optional<PointM> SwingCop::*member, const std::optional<Event>& event) {
        if (!event) return;
        put(member,
            stance_at(trace, {event->time_s, event->u_s, instant_half_s, resting}, hand, options.loads));
    };
    put_instant(&SwingCop::top, events.top);
    put_instant(&SwingCop::impact, events.impact);
    if (events.finish)
        put(&SwingCop::finish,
            mean_stance(trace, stretch_of(trace, finish_span(*events.finish)), hand, options.loads));
}

}  // namespace footing
