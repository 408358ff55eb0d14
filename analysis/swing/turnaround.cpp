#include "analysis/swing/turnaround.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/swing/likely_instant.h"
#include "analysis/swing/turn.h"

namespace footing {

namespace {

// Set on made-up motions; docs/formulas.md says on which.
constexpr double turn_u_s = 0.006;
constexpr double turn_sway = 0.001;    ///< what sway may hide
constexpr double least_fall = 0.0015;  ///< of the share, for its flanks to be fitted
constexpr double flank_part = 0.25;    ///< of the backswing, how far up the flanks of the turn are fitted
constexpr double return_part = 0.05;   ///< of the return, where that is further
constexpr double least_flank_s = 0.05;
constexpr double flank_rate_hz = 200.0;
constexpr double least_noise_of_turn = 0.0003;
constexpr double turn_alike_s = 0.12;
constexpr double turn_shape_u_s = 0.011;  ///< since the true shape of the turn is not known
constexpr double turn_before_speed_u_s = 0.15;

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

}  // namespace

Event find_turnaround(const SwingMotion& motion, std::size_t from, std::size_t to, double expected_s) {
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

}  // namespace footing
