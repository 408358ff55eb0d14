#include "analysis/swing/impact.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace footing {

namespace {

// Set on made-up motions; docs/formulas.md says on which.
constexpr double next_push_s = 0.50;    ///< the strike's push comes at most so long after the turn's …
constexpr double next_push_part = 0.4;  ///< … is at least this part of it …
constexpr double lighter_part = 0.5;    ///< … and the load sinks to this part of it between them
constexpr double impact_after_half_s = 0.097;
constexpr double impact_after_nine_tenths_s = -0.006;
constexpr double impact_after_push_peak_s = 0.070;
constexpr double impact_after_push_s = -0.011;
constexpr double impact_before_lowest_s = 0.085;
constexpr double impact_u_s = 0.06;
constexpr double impact_u_by_share_s = 0.09;  ///< where nobody pushes
constexpr double doubt_by_share = 0.15;       ///< of how far the share's return is from the push
// Places among the witnesses.
constexpr std::size_t by_share = share_witness;
constexpr std::size_t by_push_peak = push_witness;
constexpr std::size_t by_push_over = 2;
constexpr std::size_t by_lowest = 3;

/// Where a column passes `level` upwards between two entries, with the part between samples; from the end
/// backwards.
double crossing(const std::vector<double>& column, std::size_t from, std::size_t to, double level) {
    for (std::size_t i = to; i > from; --i) {
        if (column[i - 1] < level && column[i] >= level) {
            return static_cast<double>(i - 1) + (level - column[i - 1]) / (column[i] - column[i - 1]);
        }
    }
    return static_cast<double>(from);
}

/// The largest load, or the last after it that is nearly as large with a lighter moment between: some push
/// once when they turn and once more when they strike.
std::size_t last_push(const std::vector<double>& load, std::size_t begin, std::size_t end, double rate_hz) {
    const auto place = [&](std::size_t i) { return load.begin() + static_cast<std::ptrdiff_t>(i); };
    auto push = static_cast<std::size_t>(std::max_element(place(begin), place(end)) - load.begin());
    const double height = load[push] - 1.0;
    const std::size_t to = std::min(load.size(), push + static_cast<std::size_t>(next_push_s * rate_hz));
    double lightest = height;
    for (std::size_t i = push + 1; i + 1 < to; ++i) {
        const double over = load[i] - 1.0;
        lightest = std::min(lightest, over);
        const bool peaks = load[i] >= load[i - 1] && load[i] > load[i + 1];
        if (!peaks || over < next_push_part * height || lightest > lighter_part * height) continue;
        push = i;
        lightest = over;
    }
    return push;
}

/// By the peak of the push, whose distance to the strike differs least between golfers; where nobody is seen
/// to push, by the share.
Event impact_of_anybody(const StrikeWitnesses& witnesses) {
    const double share_s = *witnesses[by_share];
    if (!witnesses[by_push_peak]) return Event{share_s, impact_u_by_share_s, EventSource::estimated};
    const double push_s = *witnesses[by_push_peak];
    return Event{push_s, std::hypot(impact_u_s, doubt_by_share * (push_s - share_s)), EventSource::estimated};
}

/// The mean of all by their lags, those that tell this golfer's strikes best weighing by far the most.
Event impact_of_golfer(const StrikeWitnesses& witnesses, const StrikeLags& lags) {
    double weights = 0.0;
    double sum = 0.0;
    double squares = 0.0;
    double least_u_s = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < lags.size(); ++i) {
        if (!witnesses[i] || lags[i].swings == 0) continue;
        const double time_s = *witnesses[i] - *witnesses[by_share] + lags[i].value_s;
        const double weight = std::pow(lags[i].u_s, -4.0);
        weights += weight;
        sum += weight * time_s;
        squares += weight * time_s * time_s;
        least_u_s = std::min(least_u_s, lags[i].u_s);
    }
    const double mean_s = sum / weights;
    const double spread_s = std::sqrt(std::max(0.0, squares / weights - mean_s * mean_s));
    return Event{*witnesses[by_share] + mean_s, std::hypot(least_u_s, spread_s), EventSource::estimated};
}

}  // namespace

ReturnMarks return_marks(const SwingMotion& motion, const StanceSignals& signals,
                         const SwingCandidate& swing) {
    ReturnMarks marks;
    const std::vector<double>& share = motion.smooth_share;
    const std::size_t turn = motion.entry(signals.time_s(static_cast<double>(swing.turn)));
    const std::size_t arrival =
        std::max(turn + 1, motion.entry(signals.time_s(static_cast<double>(swing.arrival))));
    const double low = share[turn];
    const double high = *std::max_element(share.begin() + static_cast<std::ptrdiff_t>(turn),
                                          share.begin() + static_cast<std::ptrdiff_t>(arrival) + 1);
    std::size_t fastest = turn;
    double top_speed = 0.0;
    for (std::size_t i = turn + 1; i <= arrival; ++i) {
        if (share[i] - share[i - 1] > top_speed) {
            top_speed = share[i] - share[i - 1];
            fastest = i;
        }
    }
    marks.fastest_s = motion.time_s(static_cast<double>(fastest) - 0.5);
    marks.half_s = motion.time_s(crossing(share, turn, arrival, low + 0.5 * (high - low)));
    std::size_t there = fastest;
    while (there < arrival && share[there] < low + 0.9 * (high - low)) ++there;
    marks.nine_tenths_s = motion.time_s(static_cast<double>(there));

    const std::vector<double>& load = motion.smooth_load;
    const std::size_t reach = static_cast<std::size_t>(0.25 * motion.rate_hz);
    const std::size_t about = motion.entry(
        signals.time_s(static_cast<double>(swing.pushes_later ? swing.push_peak : swing.middle)));
    const std::size_t begin = about > reach ? about - reach : 0;
    const std::size_t end = std::min(load.size(), about + reach);
    const auto peak = load.begin() + static_cast<std::ptrdiff_t>(last_push(load, begin, end, motion.rate_hz));
    if (*peak - 1.0 > 0.01) {
        const std::size_t at = static_cast<std::size_t>(peak - load.begin());
        marks.push_peak_s = motion.time_s(static_cast<double>(at));
        for (std::size_t i = at; i < std::min(load.size(), at + reach); ++i) {
            if (load[i] < 1.0) {
                marks.push_over_s = motion.time_s(static_cast<double>(i));
                break;
            }
        }
        const auto lowest = std::min_element(
            peak, load.begin() + static_cast<std::ptrdiff_t>(std::min(load.size(), at + reach + reach / 2)));
        if (*lowest < 1.0 - 0.1 * (*peak - 1.0))
            marks.load_lowest_s = motion.time_s(static_cast<double>(lowest - load.begin()));
    }
    return marks;
}

std::optional<Event> triggered_impact(const LoadTrace& trace, double from_s, double to_s) {
    const auto at = [&](double time_s) {
        return static_cast<std::size_t>(
            std::clamp(time_s * trace.rate_hz, 1.0, static_cast<double>(trace.size() - 1)));
    };
    for (std::size_t i = at(from_s); i <= at(to_s); ++i) {
        if (trace.trigger[i] == 0 || trace.trigger[i - 1] != 0) continue;
        std::size_t before = i - 1;
        while (before > 0 && trace.bridged[before] != 0) --before;
        const double half_width = 0.5 * static_cast<double>(i - before);
        return Event{(static_cast<double>(i) - half_width) / trace.rate_hz,
                     half_width / trace.rate_hz / std::sqrt(3.0), EventSource::measured};
    }
    return std::nullopt;
}

StrikeWitnesses strike_witnesses(const ReturnMarks& marks) {
    const auto later = [](const std::optional<double>& time_s, double by_s) {
        return time_s ? std::optional(*time_s + by_s) : std::nullopt;
    };
    StrikeWitnesses witnesses;
    witnesses[by_share] =
        0.5 * (marks.half_s + impact_after_half_s + marks.nine_tenths_s + impact_after_nine_tenths_s);
    witnesses[by_push_peak] = later(marks.push_peak_s, impact_after_push_peak_s);
    witnesses[by_push_over] = later(marks.push_over_s, impact_after_push_s);
    witnesses[by_lowest] = later(marks.load_lowest_s, -impact_before_lowest_s);
    return witnesses;
}

Event estimated_impact(const StrikeWitnesses& witnesses, const StrikeLags& lags) {
    for (std::size_t i = 0; i < lags.size(); ++i) {
        if (witnesses[i] && lags[i].swings > 0) return impact_of_golfer(witnesses, lags);
    }
    return impact_of_anybody(witnesses);
}

}  // namespace footing
