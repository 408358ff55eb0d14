#include "analysis/swing/measures.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/smoothness.h"

namespace footing {

namespace {

constexpr double smoothness_rate_hz = 100.0;
constexpr double cop_half_window_s = 0.015;
constexpr double finish_mean_s = 0.3;
/// Sway within this long is one value, not many; it sets how well a mean over the address is known.
constexpr double sway_alike_s = 0.4;

/// First and one past the last sample of the address window, in entries of the motion.
struct Window {
    std::size_t begin = 0;
    std::size_t end = 0;
};

Window address_window(const SwingMotion& motion, const Event& address) {
    const double half_s = address.u_s * std::sqrt(3.0);
    const std::size_t begin = motion.entry(address.time_s - half_s);
    return {begin, std::max(begin + 1, motion.entry(address.time_s + half_s))};
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

/// What calibration and zero may add to a share of loads that sum to `total_n`.
double systematic_u(double share, double total_n, const ShareUncertainty& known_to) {
    const double by_gain = share * (1.0 - share) * std::sqrt(2.0) * known_to.gain;
    const double by_zero = known_to.zero_n / total_n * std::hypot(share, 1.0 - share);
    return std::hypot(by_gain, by_zero);
}

}  // namespace

SwingShares measure_shares(const LoadTrace& trace, const SwingMotion& motion, const SwingEvents& events,
                           bool feet_known, const TargetBand& band, const SwingOptions& options) {
    SwingShares shares;
    if (!feet_known) return shares;
    const double smoothed_noise =
        motion.share_noise * std::sqrt(std::min(1.0, 2.2 * motion.smoothing_hz / motion.rate_hz));
    const auto value_of = [&](double share, double random_u, std::size_t entry) {
        const double total_n = std::max(options.load_floor_n, trace.total_n[motion.first + entry]);
        const double u = std::hypot(random_u, systematic_u(share, total_n, options.share));
        return ShareValue{share, u, judge(share, u, band, options.sure)};
    };
    const auto mean_over = [&](Window window) -> std::optional<ShareValue> {
        std::vector<double> values;
        for (std::size_t i = window.begin; i < std::min(window.end, motion.share.size()); ++i) {
            if (known(motion.share[i])) values.push_back(motion.share[i]);
        }
        if (values.size() < 2) return std::nullopt;
        const double count = static_cast<double>(values.size());
        const double spread = standard_deviation(values);
        const double noise = std::min(spread, motion.share_noise);
        const double sway = std::sqrt(spread * spread - noise * noise);
        const double independent = std::max(1.0, count / motion.rate_hz / sway_alike_s);
        const double random_u = std::hypot(noise / std::sqrt(count), sway / std::sqrt(independent));
        return value_of(mean(values), random_u, window.begin);
    };
    /// At an instant that is itself only known to u_s: the share's slope makes a share of it.
    const auto at_instant = [&](const Event& event) -> std::optional<ShareValue> {
        const std::size_t entry = motion.entry(event.time_s);
        const double share = motion.smooth_share[entry];
        if (!known(share)) return std::nullopt;
        const double before = motion.smooth_share[motion.entry(event.time_s - event.u_s)];
        const double after = motion.smooth_share[motion.entry(event.time_s + event.u_s)];
        const double by_time = std::max(std::abs(after - share), std::abs(share - before));
        return value_of(share, std::hypot(smoothed_noise, by_time), entry);
    };

    if (events.address) shares.address = mean_over(address_window(motion, *events.address));
    if (events.turnaround) {
        shares.turnaround = at_instant(*events.turnaround);
        shares.lowest = at_instant(lowest_event(motion, events));
    }
    if (events.top) shares.top = at_instant(*events.top);
    if (events.impact) shares.impact = at_instant(*events.impact);
    if (events.finish) {
        const std::size_t begin = motion.entry(events.finish->time_s);
        const std::size_t end = motion.entry(events.finish->time_s + finish_mean_s);
        if (end > begin + 1) shares.finish = mean_over({begin, end});
    }
    return shares;
}

std::optional<Tempo> measure_tempo(const SwingEvents& events) {
    if (!events.takeaway || !events.top || !events.impact) return std::nullopt;
    Tempo tempo;
    tempo.backswing_s = events.top->time_s - events.takeaway->time_s;
    tempo.downswing_s = events.impact->time_s - events.top->time_s;
    if (tempo.backswing_s <= 0.0 || tempo.downswing_s <= 0.0) return std::nullopt;
    tempo.ratio = tempo.backswing_s / tempo.downswing_s;
    return tempo;
}

std::optional<VerticalLoad> measure_vertical(const SwingMotion& motion, const SwingEvents& events,
                                             double body_weight_n) {
    if (!events.takeaway || body_weight_n <= 0.0 || (!events.finish && !events.impact)) return std::nullopt;
    const Event& last = events.finish ? *events.finish : *events.impact;
    const auto begin =
        motion.smooth_load.begin() + static_cast<std::ptrdiff_t>(motion.entry(events.takeaway->time_s));
    const auto end = motion.smooth_load.begin() + static_cast<std::ptrdiff_t>(motion.entry(last.time_s));
    if (begin >= end) return std::nullopt;
    const auto [lowest, highest] = std::minmax_element(begin, end);
    const double to_body_weights = motion.address_load_n / body_weight_n;
    return VerticalLoad{*highest * to_body_weights, *lowest * to_body_weights,
                        motion.time_s(static_cast<double>(highest - motion.smooth_load.begin()))};
}

std::optional<Smoothness> measure_smoothness(const SwingMotion& motion, const SwingEvents& events) {
    if (!events.takeaway || !events.impact) return std::nullopt;
    const std::size_t step =
        std::max<std::size_t>(1, static_cast<std::size_t>(motion.rate_hz / smoothness_rate_hz + 1e-6));
    const double rate_hz = motion.rate_hz / static_cast<double>(step);
    std::vector<double> speed;
    const std::size_t end = motion.entry(events.impact->time_s);
    for (std::size_t i = motion.entry(events.takeaway->time_s); i + step <= end; i += step)
        speed.push_back(std::abs(motion.smooth_share[i + step] - motion.smooth_share[i]) * rate_hz);
    const Smoothness smoothness{spectral_arc_length(speed, rate_hz), log_dimensionless_jerk(speed, rate_hz)};
    if (std::isnan(smoothness.sparc) || std::isnan(smoothness.ldlj)) return std::nullopt;
    return smoothness;
}

SwingCop measure_cop(const LoadTrace& trace, Hand hand, const SwingEvents& events,
                     const SwingOptions& options) {
    const auto mean_between = [&](double from_s, double to_s) -> std::optional<PointM> {
        RunningSummary x;
        RunningSummary y;
        const auto at = [&](double time_s) {
            return static_cast<std::size_t>(
                std::clamp(std::round(time_s * trace.rate_hz), 0.0, static_cast<double>(trace.size() - 1)));
        };
        for (std::size_t i = at(from_s); i <= at(to_s); ++i) {
            if (!known(trace.cop_x_m[i]) || !known(trace.cop_y_m[i])) continue;
            x.add(stance_x_m(trace.cop_x_m[i], hand));
            y.add(trace.cop_y_m[i]);
        }
        if (x.count() == 0) return std::nullopt;
        return PointM{x.mean(), y.mean()};
    };
    const auto at_instant = [&](const std::optional<Event>& event) -> std::optional<PointM> {
        if (!event) return std::nullopt;
        return mean_between(event->time_s - cop_half_window_s, event->time_s + cop_half_window_s);
    };
    SwingCop cop;
    if (events.address) {
        const double half_s = std::min(0.5 * options.address_mean_s, events.address->u_s * std::sqrt(3.0));
        cop.address = mean_between(events.address->time_s - half_s, events.address->time_s + half_s);
    }
    cop.top = at_instant(events.top);
    cop.impact = at_instant(events.impact);
    if (events.finish)
        cop.finish = mean_between(events.finish->time_s, events.finish->time_s + finish_mean_s);
    return cop;
}

}  // namespace footing
