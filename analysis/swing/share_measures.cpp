#include "analysis/swing/share_measures.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/filter.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

constexpr double abrupt_window_s = 0.1;
constexpr double abrupt_smoothing_hz = 12.0;
constexpr double speed_step_s = 0.01;

/// Speed at an entry, by the difference over 20 ms, which the smoothing of the share bears.
double speed_per_s(const std::vector<double>& share, std::size_t entry, std::size_t reach, double rate_hz) {
    return (share[entry + reach] - share[entry - reach]) * rate_hz / (2.0 * static_cast<double>(reach));
}

/// Third derivative by central differences at about 100 Hz; NaN where the column ends too near.
double third_derivative(const std::vector<double>& share, std::size_t entry, std::size_t step,
                        double rate_hz) {
    if (entry < 2 * step || entry + 2 * step >= share.size()) return unknown;
    const double dt = static_cast<double>(step) / rate_hz;
    return (share[entry + 2 * step] - 2.0 * share[entry + step] + 2.0 * share[entry - step] -
            share[entry - 2 * step]) /
           (2.0 * dt * dt * dt);
}

}  // namespace

std::optional<TimeBelow> measure_time_below(const SwingMotion& motion, const SwingEvents& events,
                                            double floor, double share_u) {
    if (!events.takeaway || (!events.finish && !events.impact)) return std::nullopt;
    const std::size_t begin = motion.entry(events.takeaway->time_s);
    const std::size_t end = motion.entry(events.finish ? events.finish->time_s : events.impact->time_s);
    if (begin >= end) return std::nullopt;
    const auto time_under = [&](double limit) {
        const auto first = motion.smooth_share.begin();
        const auto under = std::count_if(first + static_cast<std::ptrdiff_t>(begin),
                                         first + static_cast<std::ptrdiff_t>(end),
                                         [limit](double share) { return share < limit; });
        return static_cast<double>(under) / motion.rate_hz;
    };
    return TimeBelow{floor, time_under(floor), time_under(floor - 2.0 * share_u),
                     time_under(floor + 2.0 * share_u)};
}

std::optional<LoadReturn> measure_load_return(const SwingMotion& motion, const SwingEvents& events) {
    if (!events.address || !events.turnaround || !events.impact) return std::nullopt;
    const auto reach = static_cast<std::size_t>(std::max(1.0, std::round(speed_step_s * motion.rate_hz)));
    const std::size_t begin = std::max(motion.entry(events.turnaround->time_s), reach);
    const std::size_t end = motion.entry(events.impact->time_s);
    LoadReturn fastest;
    fastest.peak_per_s = -1.0;
    for (std::size_t i = begin; i <= end && i + reach < motion.smooth_share.size(); ++i) {
        const double speed = speed_per_s(motion.smooth_share, i, reach, motion.rate_hz);
        if (speed <= fastest.peak_per_s) continue;
        fastest.peak_per_s = speed;
        fastest.time_s = motion.time_s(static_cast<double>(i));
    }
    if (!(fastest.peak_per_s > 0.0)) return std::nullopt;
    const EventSpan address = address_span(*events.address);
    double squares = 0.0;
    std::size_t count = 0;
    for (std::size_t i = std::max(motion.entry(address.from_s), reach);
         i <= motion.entry(address.to_s) && i + reach < motion.smooth_share.size(); ++i) {
        const double speed = speed_per_s(motion.smooth_share, i, reach, motion.rate_hz);
        squares += speed * speed;
        ++count;
    }
    fastest.u_per_s = count > 0 ? std::sqrt(squares / static_cast<double>(count)) : 0.0;
    return fastest;
}

std::optional<Abruptness> measure_abruptness(const SwingMotion& motion, const SwingEvents& events) {
    if (!events.address || !events.impact) return std::nullopt;
    std::vector<double> share = motion.share;
    if (!std::ranges::all_of(share, known)) return std::nullopt;
    const double cutoff_hz = std::min(abrupt_smoothing_hz, 0.2 * motion.rate_hz);
    zero_lag_filter(
        butterworth_low_pass(4, cutoff_for_two_passes(4, cutoff_hz, motion.rate_hz), motion.rate_hz), share);
    const auto step = static_cast<std::size_t>(std::max(1.0, std::round(speed_step_s * motion.rate_hz)));
    const auto mean_square = [&](double from_s, double to_s) {
        double squares = 0.0;
        std::size_t count = 0;
        for (std::size_t i = motion.entry(from_s); i <= motion.entry(to_s); ++i) {
            const double value = third_derivative(share, i, step, motion.rate_hz);
            if (!known(value)) continue;
            squares += value * value;
            ++count;
        }
        return count > 0 ? squares / static_cast<double>(count) : unknown;
    };
    const EventSpan address = address_span(*events.address);
    const double noise = mean_square(address.from_s, address.to_s);
    // An impact known to u_s only: three windows, about it and u_s before and after.
    const double impact_s = events.impact->time_s;
    double whole = 0.0;
    for (const double shift_s : {-events.impact->u_s, 0.0, events.impact->u_s})
        whole += mean_square(impact_s + shift_s - abrupt_window_s, impact_s + shift_s) / 3.0;
    if (!known(noise) || !known(whole)) return std::nullopt;
    return Abruptness{std::sqrt(std::max(0.0, whole - noise)), std::sqrt(noise), std::nullopt};
}

}  // namespace footing
