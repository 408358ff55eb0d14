#include "analysis/swing/swing_evidence.h"

#include <cmath>

namespace footing {

namespace {

/// With this much push the trail foot may come up after the return.
constexpr double push_with_foot_lifted_bw = 0.06;
constexpr double rest_seen_s = 0.2;
/// A hold keeps at least this part of the return.
constexpr double held_part = 0.55;
/// Nobody swings with a foot in the air: shares beyond these are steps.
constexpr double lead_lifted_share = 0.10;
constexpr double trail_lifted_share = 0.985;
/// By how much of a push the load may move before it, and how long it rises.
constexpr double sink_before_push = 0.6;
constexpr double rise_of_push_s = 0.3;
/// The body moves up and down about a push for so long; before it the load is at rest for half a second.
constexpr double body_moves_before_push_s = 0.35;
constexpr double body_moves_after_push_s = 0.4;
constexpr double rests_before_push_s = 0.85;
/// Who bends for a ball is up again after at most this; the brake comes at most so long after the sinking.
constexpr double longest_bent_s = 4.0;
constexpr double longest_brake_s = 0.8;
constexpr double part_of_push_when_bending = 0.4;
/// A ball is struck at the latest this long after the return is over.
constexpr double struck_after_arrival_s = 0.2;

}  // namespace

double mean(const std::vector<double>& column, EntryRange range) {
    double sum = 0.0;
    for (std::size_t i = range.begin; i < range.end; ++i) sum += column[i];
    return sum / static_cast<double>(std::max<std::size_t>(1, range.end - range.begin));
}

double SwingEvidence::impulse(const SwingCandidate& c, double address_bw) const {
    const std::size_t end = std::min(s_.size(), std::max(c.arrival, c.push_peak) + s_.entries(0.5) + 1);
    double sum = 0.0;
    for (std::size_t i = c.quiet_to; i < end; ++i) {
        if (!std::isnan(s_.load_bw[i])) sum += s_.load_bw[i] - address_bw;
    }
    return sum / s_.rate_hz;
}

bool SwingEvidence::rests_beyond(const SwingCandidate& c, std::size_t hold_end, double address_share,
                                 double part) const {
    const EntryRange rest{std::min(s_.size() - 1, c.arrival + s_.entries(0.15)), hold_end};
    return rest.begin < rest.end &&
           mean(s_.share, rest) - address_share >= std::max(0.004, part * c.return_share);
}

double SwingEvidence::away_s(const SwingCandidate& c, double address_share) const {
    const double half = 0.5 * (s_.share[c.turn] + address_share);
    std::size_t i = c.turn;
    while (i > c.quiet_from && s_.share[i] < half) --i;
    return static_cast<double>(c.turn - i) / s_.rate_hz;
}

bool SwingEvidence::was_struck(const SwingCandidate& c) const {
    if (!o_.use_trigger) return false;
    const std::size_t soonest =
        std::max(c.quiet_to, c.turn - std::min(c.turn, s_.entries(struck_before_turn_s)));
    const EntryRange around{soonest, std::min(s_.size(), c.arrival + s_.entries(struck_after_arrival_s) + 1)};
    return std::find(place_at(s_.struck, around.begin), place_at(s_.struck, around.end), 1) !=
           place_at(s_.struck, around.end);
}

bool SwingEvidence::foot_lifted(const SwingCandidate& c, EntryRange whole) const {
    const auto begin = place_at(s_.share, whole.begin);
    const auto turn = place_at(s_.share, c.turn);
    const auto end = place_at(s_.share, whole.end);
    if (*std::min_element(begin, end) < lead_lifted_share) return true;
    if (*std::max_element(begin, turn + 1) > trail_lifted_share) return true;
    if (*std::max_element(turn, end) <= trail_lifted_share) return false;
    // Above what rests there afterwards: whoever leaned on a club before carries more of himself now.
    const EntryRange rest{whole.end - std::min(whole.end - c.turn, s_.entries(rest_seen_s)), whole.end};
    const double rest_bw = mean(s_.load_bw, rest);
    return std::min(c.push_bw, s_.load_bw[c.push_peak] - rest_bw) < push_with_foot_lifted_bw;
}

bool SwingEvidence::departed(const SwingCandidate& c, EntryRange address, double usual_changes) const {
    const std::size_t before = s_.entries(under_way_before_turn_s);
    if (c.turn <= before + address.end) return false;
    const EntryRange backswing{address.end, c.turn - before + 1};
    const auto largest = [&](const std::vector<double>& column) {
        const double level = mean(column, address);
        double most = 0.0;
        for (std::size_t i = backswing.begin; i < backswing.end; ++i)
            most = std::max(most, std::abs(column[i] - level));
        return most;
    };
    return largest(s_.share) >= std::max(0.006, usual_changes * s_.usual_share_change) ||
           largest(s_.forward_m) >= std::max(0.003, usual_changes * s_.usual_forward_change_m);
}

bool SwingEvidence::is_held(const SwingCandidate& c, std::size_t hold_end) const {
    const EntryRange hold{std::min(s_.size() - 1, c.arrival + s_.entries(0.05)), hold_end};
    const double lowest = *std::min_element(place_at(s_.share, hold.begin), place_at(s_.share, hold.end));
    return lowest >= s_.share[c.turn] + held_part * c.return_share;
}

bool SwingEvidence::push_comes_first(const SwingCandidate& c, double address_bw) const {
    const std::size_t rises = c.push_peak - std::min(c.push_peak, s_.entries(rise_of_push_s));
    const auto from = place_at(s_.load_bw, c.quiet_to);
    const double lowest =
        *std::min_element(from, place_at(s_.load_bw, std::max(c.push_peak, c.quiet_to + 1)));
    const double highest = *std::max_element(from, place_at(s_.load_bw, std::max(rises, c.quiet_to + 1)));
    return address_bw - lowest <= sink_before_push * c.push_bw &&
           highest - address_bw <= sink_before_push * c.push_bw;
}

double SwingEvidence::push_s(const SwingCandidate& c, double address_bw) const {
    const double half = address_bw + 0.5 * c.push_bw;
    std::size_t begin = c.push_peak;
    std::size_t end = c.push_peak;
    while (begin > 0 && s_.load_bw[begin] > half) --begin;
    while (end + 1 < s_.size() && s_.load_bw[end] > half) ++end;
    return static_cast<double>(end - begin) / s_.rate_hz;
}

bool SwingEvidence::load_was_at_rest(const SwingCandidate& c, double address_bw) const {
    const std::size_t peak = c.push_peak;
    const std::size_t begin = peak - std::min(peak, s_.entries(rests_before_push_s));
    const std::size_t end = peak - std::min(peak, s_.entries(body_moves_before_push_s));
    if (begin >= end) return false;
    const auto [lowest, highest] =
        std::minmax_element(place_at(s_.load_bw, begin), place_at(s_.load_bw, end));
    const double allowed = std::max(quiet_load_, 0.3 * c.push_bw);
    return *highest - address_bw <= allowed && address_bw - *lowest <= allowed;
}

double SwingEvidence::impulse_left(const SwingCandidate& c, double address_bw) const {
    const std::size_t begin = c.push_peak - std::min(c.push_peak, s_.entries(body_moves_before_push_s));
    const std::size_t end = std::min(s_.size(), c.push_peak + s_.entries(body_moves_after_push_s) + 1);
    double up = 0.0;
    double down = 0.0;
    for (std::size_t i = begin; i < end; ++i) {
        const double over = s_.load_bw[i] - address_bw;
        (over > 0.0 ? up : down) += std::abs(over);
    }
    return up > 0.0 ? std::max(0.0, 1.0 - down / up) : 0.0;
}

bool SwingEvidence::bent_before(const SwingCandidate& c, double address_bw) const {
    const std::size_t begin = c.push_peak - std::min(c.push_peak, s_.entries(longest_bent_s));
    const std::size_t end = c.push_peak - std::min(c.push_peak, s_.entries(body_moves_before_push_s));
    const double wave = part_of_push_when_bending * c.push_bw;
    std::size_t sank = end;
    for (std::size_t i = begin; i < end; ++i) {
        if (s_.usable[i] == 0) {
            sank = end;
        } else if (address_bw - s_.load_bw[i] >= wave) {
            sank = i;
        } else if (sank < end && s_.load_bw[i] - address_bw >= wave) {
            if (i - sank <= s_.entries(longest_brake_s)) return true;
            sank = end;
        }
    }
    return false;
}

bool SwingEvidence::load_comes_to_rest(const SwingCandidate& c, double address_bw) const {
    const std::size_t peak = c.push_peak;
    const EntryRange after{std::min(s_.size() - 1, peak + s_.entries(0.45)),
                           std::min(s_.size(), peak + s_.entries(0.75))};
    if (after.begin >= after.end) return false;
    const auto [lowest, highest] =
        std::minmax_element(place_at(s_.load_bw, after.begin), place_at(s_.load_bw, after.end));
    const double allowed = std::max(quiet_load_, 0.3 * c.push_bw);
    return *highest - address_bw <= allowed && address_bw - *lowest <= allowed;
}

}  // namespace footing
