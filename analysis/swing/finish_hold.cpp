#include "analysis/swing/finish_hold.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "analysis/statistics/summary.h"
#include "analysis/swing/cop_motion.h"

namespace footing {

namespace {

constexpr double level_s = 0.3;  ///< the finish's own level is the mean over so long
constexpr double share_held = 0.05;
constexpr double load_held_bw = 0.05;
constexpr double forward_held_m = 0.03;
constexpr double longest_sway_s = 1.0;

}  // namespace

std::optional<FinishHold> measure_finish_hold(const LoadTrace& trace, Hand hand, const StanceSignals& signals,
                                              const SwingEvents& events, double until_s) {
    if (!events.finish) return std::nullopt;
    const auto entry = [&](double time_s) {
        return static_cast<std::size_t>(
            std::clamp(time_s * signals.rate_hz, 0.0, static_cast<double>(signals.size() - 1)));
    };
    const std::size_t begin = entry(events.finish->time_s);
    const std::size_t level_end =
        std::min(signals.size(), begin + std::max<std::size_t>(2, signals.entries(level_s)));
    if (level_end < begin + 2) return std::nullopt;
    if (!all_usable(signals, begin, level_end)) return std::nullopt;
    const auto level = [&](const std::vector<double>& column) {
        return mean(std::span(column).subspan(begin, level_end - begin));
    };
    const double share = level(signals.share);
    const double load_bw = level(signals.load_bw);
    const double forward_m = level(signals.forward_m);
    if (!known(share) || !known(load_bw) || !known(forward_m)) return std::nullopt;
    const auto is_held = [&](std::size_t at) {
        return std::abs(signals.share[at] - share) <= share_held &&
               std::abs(signals.load_bw[at] - load_bw) <= load_held_bw &&
               std::abs(signals.forward_m[at] - forward_m) <= forward_held_m;
    };
    const std::size_t last = std::max(begin, entry(until_s));
    std::size_t at = begin;
    while (at < last && signals.usable[at] != 0 && is_held(at)) ++at;
    FinishHold hold;
    hold.end = at < last && signals.usable[at] != 0 ? HoldEnd::left : HoldEnd::not_seen;
    hold.held_s = static_cast<double>(at - begin) / signals.rate_hz;
    const double sway_to_s = events.finish->time_s + std::min(hold.held_s, longest_sway_s);
    hold.sway = measure_short_sway(trace, hand, events.finish->time_s, sway_to_s, signals.feet_known);
    return hold;
}

}  // namespace footing
