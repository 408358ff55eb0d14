#include "analysis/swing/events.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/likely_instant.h"
#include "analysis/swing/onset.h"
#include "analysis/swing/turn.h"

namespace footing {

namespace {

/// The share is smoothed no more than its noise asks for.
constexpr double least_smoothing_hz = 8.0;
constexpr double most_smoothing_hz = 20.0;
constexpr double share_noise_allowed = 0.0006;
constexpr double load_smoothing_hz = 15.0;
constexpr double assumed_stance_m = 0.4;
constexpr double look_after_arrival_s = 3.5;

// How events follow from what is seen; docs/formulas.md says on which motions these were set.
constexpr std::array<double, 4> onset_powers{1.0, 1.6, 2.2, 3.0};
constexpr double onset_part = 0.6;             ///< the start is fitted up to this part of the way
constexpr double takeaway_shape_u_s = 0.045;   ///< since the true shape of the start is not known
constexpr double takeaway_seen_late_s = 0.01;  ///< smooth starts more than it is early for abrupt ones
constexpr double noise_of_usual_change = 0.7;
constexpr double unrest_to_change = 1.0;     ///< of what moves in the quiet spell
constexpr double least_part_of_usual = 0.3;  ///< a short quiet spell may be stiller than the player is
constexpr double usual_backswing_s = 0.65;   ///< from takeaway to the start of the return, known beforehand
constexpr double usual_backswing_u_s = 0.15;
constexpr double alike_s = 0.25;        ///< sway within this long is one value, not many
constexpr double next_push_s = 0.50;    ///< the strike's push comes at most so long after the turn's …
constexpr double next_push_part = 0.4;  ///< … is at least this part of it …
constexpr double lighter_part = 0.5;    ///< … and the load sinks to this part of it between them
constexpr double impact_after_half_s = 0.109;
constexpr double impact_after_nine_tenths_s = 0.006;
constexpr double impact_after_push_peak_s = 0.093;
constexpr double impact_after_push_s = 0.001;
constexpr double impact_before_lowest_s = 0.073;
constexpr double impact_u_s = 0.032;
constexpr double impact_u_of_spread = 0.35;
constexpr double impact_u_by_share_s = 0.04;
constexpr double top_after_turn_s = 0.04;
constexpr double top_u_s = 0.05;
constexpr double turn_u_s = 0.006;
constexpr double turn_sway = 0.001;    ///< what sway may hide
constexpr double least_fall = 0.0015;  ///< of the share, for its flanks to be fitted
constexpr double flank_part = 0.3;     ///< of the backswing, how far up the flanks of the turn are fitted
constexpr double return_part = 0.15;   ///< of the return, where that is further
constexpr double least_flank_s = 0.06;
constexpr double flank_rate_hz = 200.0;
constexpr double least_noise_of_turn = 0.0003;
constexpr double turn_alike_s = 0.12;
constexpr double turn_shape_u_s = 0.011;  ///< since the true shape of the turn is not known
/// From the turn to where the return has a quarter of its speed, known beforehand.
constexpr double turn_before_speed_s = 0.05;
constexpr double turn_before_speed_u_s = 0.06;
constexpr double finish_window_s = 0.3;
constexpr double finish_after_still_s = 0.12;
constexpr double finish_u_s = 0.21;

void fill_unknown(std::vector<double>& column) {
    double last = unknown;
    for (double& value : column) {
        if (std::isnan(value)) value = last;
        last = value;
    }
    const auto first_known = std::find_if(column.begin(), column.end(), known);
    if (first_known != column.end()) std::fill(column.begin(), first_known, *first_known);
}

void smooth(std::vector<double>& column, double cutoff_hz, double rate_hz) {
    const double cutoff = std::min(cutoff_hz, 0.2 * rate_hz);
    zero_lag_filter_known(butterworth_low_pass(2, cutoff_for_two_passes(2, cutoff, rate_hz), rate_hz),
                          column);
}

/// Standard deviation of the noise from one sample to the next.
double sample_noise(std::span<const double> column) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < column.size(); ++i) {
        if (known(column[i]) && known(column[i - 1])) steps.push_back(column[i] - column[i - 1]);
    }
    return steps.size() < 8 ? 0.0 : standard_deviation(steps) / std::sqrt(2.0);
}

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

/// How badly each entry from `rest_from` fits as the start of the backswing in one of the coarse signals.
std::vector<double> departure_misfit(const StanceSignals& signals, const std::vector<double>& column,
                                     const SwingCandidate& swing, std::size_t rest_from,
                                     double usual_change) {
    const std::size_t window = std::min(swing.quiet_to - swing.quiet_from, signals.entries(0.3));
    const double level = mean(std::span(column).subspan(swing.quiet_to - window, window + 1));
    std::size_t furthest = swing.quiet_to;
    for (std::size_t i = swing.quiet_to; i <= swing.turn; ++i) {
        if (std::abs(column[i] - level) > std::abs(column[furthest] - level)) furthest = i;
    }
    const double gone = std::abs(column[furthest] - level);
    // How still it is before this swing, which in a busy lesson is stiller than usual.
    const auto [lowest, highest] =
        std::minmax_element(column.begin() + static_cast<std::ptrdiff_t>(swing.quiet_to - window),
                            column.begin() + static_cast<std::ptrdiff_t>(swing.quiet_to) + 1);
    const double change_here =
        std::clamp(unrest_to_change * (*highest - *lowest), least_part_of_usual * usual_change, usual_change);
    if (gone < 2.0 * change_here) return {};
    std::size_t end = furthest;
    while (end > swing.quiet_to && std::abs(column[end] - level) > onset_part * gone) --end;
    return onset_misfit(std::span(column).subspan(rest_from, end + 1 - rest_from), onset_powers,
                        noise_of_usual_change * change_here);
}

std::optional<Event> find_takeaway(const StanceSignals& signals, const SwingCandidate& swing) {
    const std::size_t rest_from =
        swing.quiet_to - std::min(swing.quiet_to - swing.quiet_from, signals.entries(0.6));
    std::vector<std::vector<double>> misfits{
        departure_misfit(signals, signals.share, swing, rest_from, signals.usual_share_change),
        departure_misfit(signals, signals.forward_m, swing, rest_from, signals.usual_forward_change_m)};
    std::erase_if(misfits, [](const std::vector<double>& misfit) { return misfit.empty(); });
    if (misfits.empty()) return std::nullopt;
    const double expected = static_cast<double>(swing.turn - rest_from) - usual_backswing_s * signals.rate_hz;
    const std::optional<Onset> onset = most_likely_onset(misfits, alike_s * signals.rate_hz, expected,
                                                         usual_backswing_u_s * signals.rate_hz);
    if (!onset) return std::nullopt;
    return Event{signals.time_s(static_cast<double>(rest_from) + onset->sample) - takeaway_seen_late_s,
                 std::hypot(onset->u_samples / signals.rate_hz, takeaway_shape_u_s), EventSource::estimated};
}

/// About where the share is lowest between two entries. The flatter it is there, the less is known of when:
/// each instant is as likely as noise and sway may hide that it is lowest, and as it is expected beforehand.
Event lowest_share_event(const SwingMotion& motion, std::size_t from, std::size_t to, double expected_s) {
    const std::vector<double>& share = motion.smooth_share;
    const auto lowest = std::min_element(share.begin() + static_cast<std::ptrdiff_t>(from),
                                         share.begin() + static_cast<std::ptrdiff_t>(to) + 1);
    const double noise =
        motion.share_noise * std::sqrt(std::min(1.0, 2.2 * motion.smoothing_hz / motion.rate_hz));
    const double hidden = std::hypot(noise, turn_sway);
    LikelyInstant turn;
    for (std::size_t i = from; i <= to; ++i) {
        const double above = (share[i] - *lowest) / hidden;
        const double off = (motion.time_s(static_cast<double>(i)) - expected_s) / turn_before_speed_u_s;
        turn.add(static_cast<double>(i), std::exp(-0.5 * (above * above + off * off)));
    }
    return {motion.time_s(turn.sample()), std::hypot(turn_u_s, turn.u_samples() / motion.rate_hz),
            EventSource::estimated};
}

/// The turn between the flanks of the share, where both are seen; else where the share is lowest.
Event turnaround_event(const SwingMotion& motion, std::size_t from, std::size_t to, double expected_s) {
    const Event lowest_event = lowest_share_event(motion, from, to, expected_s);
    const std::vector<double>& share = motion.smooth_share;
    const std::size_t lowest =
        static_cast<std::size_t>(std::min_element(share.begin() + static_cast<std::ptrdiff_t>(from),
                                                  share.begin() + static_cast<std::ptrdiff_t>(to) + 1) -
                                 share.begin());
    const double up = share[lowest] + flank_part * (share[from] - share[lowest]);
    std::size_t begin = lowest;
    std::size_t end = lowest;
    while (begin > from && share[begin] < up) --begin;
    const double up_return = std::max(up, share[lowest] + return_part * (share[to] - share[lowest]));
    while (end < to && share[end] < up_return) ++end;
    const auto step =
        static_cast<std::size_t>(std::max(1.0, std::floor(motion.rate_hz / flank_rate_hz + 1e-6)));
    const auto least = static_cast<std::size_t>(least_flank_s * motion.rate_hz);
    if (lowest < begin + least || end < lowest + least / 2 || share[from] - share[lowest] < least_fall)
        return lowest_event;
    std::vector<double> column;
    for (std::size_t i = begin; i <= end; i += step) column.push_back(share[i]);
    const double rate_hz = motion.rate_hz / static_cast<double>(step);
    const double expected = (expected_s - motion.time_s(static_cast<double>(begin))) * rate_hz;
    const std::optional<Turn> turn =
        turn_between_flanks(column, 0, column.size(), turn_alike_s * rate_hz, least_noise_of_turn,
                            {expected, turn_before_speed_u_s * rate_hz});
    if (!turn) return lowest_event;
    return {motion.time_s(static_cast<double>(begin) + turn->sample * static_cast<double>(step)),
            std::hypot(turn_shape_u_s, turn->u_samples / rate_hz), EventSource::estimated};
}

/// The first rising edge of the trigger about the return; half a sample's rounding, or the frames that were
/// lost before it.
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

/// Four witnesses: the share's return, the peak of the push, its end, and the lowest load after it. Any of
/// them may be far off, so the middle two are believed.
std::optional<Event> estimated_impact(const ReturnMarks& marks) {
    const double by_share =
        0.5 * (marks.half_s + impact_after_half_s + marks.nine_tenths_s + impact_after_nine_tenths_s);
    if (!marks.push_peak_s || !marks.push_over_s || !marks.load_lowest_s)
        return Event{by_share, impact_u_by_share_s, EventSource::estimated};
    std::array<double, 4> witnesses{by_share, *marks.push_peak_s + impact_after_push_peak_s,
                                    *marks.push_over_s + impact_after_push_s,
                                    *marks.load_lowest_s - impact_before_lowest_s};
    std::ranges::sort(witnesses);
    return Event{0.5 * (witnesses[1] + witnesses[2]),
                 std::hypot(impact_u_s, impact_u_of_spread * (witnesses[2] - witnesses[1])),
                 EventSource::estimated};
}

std::optional<Event> find_finish(const StanceSignals& signals, double impact_s, std::size_t arrival,
                                 std::size_t next_from) {
    const double share_still = std::max(0.004, 2.5 * signals.usual_share_change);
    const double load_still = std::max(0.015, 4.0 * signals.usual_load_change_bw);
    const std::size_t window = signals.entries(finish_window_s);
    const std::size_t from =
        std::max(arrival, static_cast<std::size_t>(std::max(0.0, impact_s * signals.rate_hz)));
    const std::size_t last =
        std::min({signals.size(), next_from + window, from + signals.entries(look_after_arrival_s)});
    for (std::size_t i = from; i + window < last; ++i) {
        const auto spread = [&](const std::vector<double>& column) {
            const auto begin = column.begin() + static_cast<std::ptrdiff_t>(i);
            const auto [lowest, highest] =
                std::minmax_element(begin, begin + static_cast<std::ptrdiff_t>(window) + 1);
            return *highest - *lowest;
        };
        if (!all_usable(signals, i, i + window + 1)) return std::nullopt;
        if (spread(signals.share) <= share_still && spread(signals.load_bw) <= load_still)
            return Event{signals.time_s(static_cast<double>(i)) + finish_after_still_s, finish_u_s,
                         EventSource::estimated};
    }
    return std::nullopt;
}

}  // namespace

std::size_t SwingMotion::entry(double time_s) const {
    const double offset = std::round(time_s * rate_hz) - static_cast<double>(first);
    return static_cast<std::size_t>(std::clamp(offset, 0.0, static_cast<double>(share.size() - 1)));
}

SwingMotion swing_motion(const LoadTrace& trace, Hand hand, const StanceSignals& signals,
                         const SwingCandidate& swing, std::size_t next_from, const SwingOptions& options) {
    SwingMotion motion;
    motion.rate_hz = trace.rate_hz;
    const std::size_t step = signals.instants_per_entry;
    const std::size_t from = swing.quiet_from;
    const std::size_t to = std::min(
        next_from, std::min(signals.size() - 1, swing.arrival + signals.entries(look_after_arrival_s)));
    motion.first = from * step;
    const std::size_t end = std::min(trace.size(), std::max(to, swing.arrival + 1) * step);
    for (std::size_t i = motion.first; i < end; ++i) {
        double share = unknown;
        if (signals.feet_known) {
            share = lead_share(trace.left_n[i], trace.right_n[i], hand, options.load_floor_n);
        } else {
            share = 0.5 + stance_x_m(trace.cop_x_m[i], hand) / assumed_stance_m;
        }
        motion.share.push_back(share);
        motion.smooth_load.push_back(trace.total_n[i]);
    }
    const std::size_t address_end = std::min(motion.smooth_load.size(), (swing.quiet_to - from + 1) * step);
    motion.address_load_n = mean(std::span(motion.smooth_load).first(address_end));
    for (double& load : motion.smooth_load) load /= motion.address_load_n;
    motion.share_noise = sample_noise(std::span(motion.share).first(address_end));
    const double ratio = share_noise_allowed / std::max(motion.share_noise, 1e-9);
    motion.smoothing_hz =
        std::clamp(0.5 * motion.rate_hz * ratio * ratio, least_smoothing_hz, most_smoothing_hz);
    motion.smooth_share = motion.share;
    fill_unknown(motion.smooth_share);
    smooth(motion.smooth_share, motion.smoothing_hz, motion.rate_hz);
    smooth(motion.smooth_load, load_smoothing_hz, motion.rate_hz);
    return motion;
}

namespace {

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
    const std::size_t middle = motion.entry(signals.time_s(static_cast<double>(swing.middle)));
    const std::size_t begin = middle > reach ? middle - reach : 0;
    const std::size_t end = std::min(load.size(), middle + reach);
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

SwingEvents find_events(const LoadTrace& trace, const SwingMotion& motion, const StanceSignals& signals,
                        const SwingCandidate& swing, std::size_t next_from, const SwingOptions& options,
                        const SwingEvents& marked) {
    SwingEvents events = marked;
    const double turn_s = signals.time_s(static_cast<double>(swing.turn));
    const double arrival_s = signals.time_s(static_cast<double>(swing.arrival));
    const double quiet_to_s = signals.time_s(static_cast<double>(swing.quiet_to));
    if (!events.takeaway) events.takeaway = find_takeaway(signals, swing);
    if (!events.impact && options.use_trigger)
        events.impact =
            triggered_impact(trace, std::max(quiet_to_s, turn_s - struck_before_turn_s), arrival_s + 0.3);
    if (!events.impact) events.impact = estimated_impact(return_marks(motion, signals, swing));

    if (events.takeaway && events.impact) {
        const std::size_t from = motion.entry(events.takeaway->time_s);
        const std::size_t to = std::max(from, motion.entry(events.impact->time_s));
        if (!events.turnaround)
            events.turnaround = turnaround_event(motion, from, to, turn_s - turn_before_speed_s);
        if (!events.top) {
            const double top_s =
                std::min(events.turnaround->time_s + top_after_turn_s, events.impact->time_s);
            events.top = Event{top_s, top_u_s, EventSource::estimated};
        }
        if (!events.address) {
            const double address_end_s = events.takeaway->time_s - options.address_ends_before_s;
            const double quiet_from_s = signals.time_s(static_cast<double>(swing.quiet_from));
            const double address_begin_s = std::max(quiet_from_s, address_end_s - options.address_mean_s);
            const double width_s = std::max(0.0, address_end_s - address_begin_s);
            events.address =
                Event{address_end_s - 0.5 * width_s, 0.5 * width_s / std::sqrt(3.0), EventSource::estimated};
        }
    }
    if (events.impact && !events.finish)
        events.finish = find_finish(signals, events.impact->time_s, swing.arrival, next_from);
    return events;
}

}  // namespace footing
