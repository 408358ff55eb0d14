#include "analysis/swing/swing_finder.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "analysis/swing/sign_reader.h"
#include "analysis/swing/sure_swings.h"
#include "analysis/swing/swing_evidence.h"
#include "analysis/swing/swing_likeness.h"
#include "analysis/swing/swing_odds.h"
#include "analysis/swing/swing_rules.h"

namespace footing {

namespace {

// Sizes that make a movement worth a closer look, and how far around it is looked.
constexpr double least_look = 0.5;
constexpr double least_push_look = 0.4;
constexpr double half_return_s = 0.14;
constexpr double half_push_s = 0.28;
constexpr double half_push_window_s = 0.25;  ///< about the return, where its push is looked for
constexpr double apart_s = 0.30;             ///< candidates are the strongest within this
/// About a strike that the trigger tells of movements this many times smaller are looked at.
constexpr double closer_look = 4.0;
constexpr double turn_before_s = 0.60;
constexpr double arrival_after_s = 0.40;
/// Some have their weight back on the lead foot before they push: how much later than the return at most, and
/// how much larger than the load at the return at least, in units of it and in body weights.
constexpr double latest_push_s = 0.65;
constexpr double times_earlier_push = 1.5;
constexpr double least_later_push_bw = 0.02;
/// What moves by this part of a return is another return.
constexpr double part_of_return = 0.3;
/// The return begins where its speed is this part of its highest.
constexpr double begins_at_speed = 0.25;
/// The address may be this many times less still than the stillest spell before the swing.
constexpr double as_still_as = 1.7;
/// A load that never moves by more than this, quick against slow, was made even before it came here.
constexpr double even_load_bw = 0.0005;
/// What is less likely by its signs is no swing, whatever it looks like.
constexpr double least_log_odds_to_compare = -6.0;

class Weigher {
  public:
    Weigher(const StanceSignals& signals, const SwingOptions& options)
        : s_(signals),
          o_(options),
          quiet_share_(std::max(0.004, 3.5 * s_.usual_share_change)),
          quiet_load_(std::max(0.012, 4.0 * s_.usual_load_change_bw)),
          quiet_forward_(std::max(0.004, 4.0 * s_.usual_forward_change_m)),
          evidence_(signals, options, quiet_load_) {
        measure_unrest();
        load_tells_ = load_moves();
    }

    /// How much moves in the quiet window that ends at each entry, in units of what counts as still.
    void measure_unrest() {
        const std::size_t window = s_.entries(o_.quiet_window_s);
        unrest_.assign(s_.size(), std::numeric_limits<double>::infinity());
        for (std::size_t last = window; last < s_.size(); ++last) {
            if (s_.usable[last] == 0) continue;
            const auto spread = [&](const std::vector<double>& column) {
                double lowest = column[last];
                double highest = column[last];
                for (std::size_t i = last - window; i < last; ++i) {
                    lowest = std::min(lowest, column[i]);
                    highest = std::max(highest, column[i]);
                }
                return highest - lowest;
            };
            unrest_[last] = std::max({spread(s_.share) / quiet_share_, spread(s_.load_bw) / quiet_load_,
                                      spread(s_.forward_m) / quiet_forward_});
        }
    }

    /// Whether the vertical load of this recording moves at all while somebody stands there. Tables of other
    /// systems may hold a load that was made even; then the lack of a push says nothing.
    bool load_moves() const {
        const std::size_t bump = s_.entries(half_push_s);
        for (std::size_t i = bump; i + bump < s_.size(); ++i) {
            if (s_.usable[i] == 0 || s_.usable[i - bump] == 0 || s_.usable[i + bump] == 0) continue;
            if (std::abs(s_.load_bw[i] - 0.5 * (s_.load_bw[i - bump] + s_.load_bw[i + bump])) > even_load_bw)
                return true;
        }
        return false;
    }

    /// Where share and load together move most, and where the load alone is pushed most: the share may go on
    /// moving through a long follow-through, when the push that tells of the strike is over.
    std::vector<std::size_t> quick_moments() const {
        const std::size_t shift = s_.entries(half_return_s);
        const std::size_t bump = s_.entries(half_push_s);
        std::vector<double> strength(s_.size(), 0.0);
        std::vector<double> push(s_.size(), 0.0);
        for (std::size_t i = bump; i + bump < s_.size(); ++i) {
            if (s_.usable[i] == 0) continue;
            const double moved = std::max(0.0, s_.share[i + shift] - s_.share[i - shift]) / look_share;
            const double pushed =
                std::max(0.0, s_.load_bw[i] - 0.5 * (s_.load_bw[i - bump] + s_.load_bw[i + bump])) /
                look_push_bw;
            if (std::isnan(moved + pushed)) continue;
            strength[i] = moved + pushed;
            push[i] = moved > 0.0 ? pushed : 0.0;
        }
        look_closer_at_strikes(strength);
        std::vector<std::size_t> moments = peaks(strength, least_look);
        const std::vector<std::size_t> pushes = peaks(push, least_push_look);
        moments.insert(moments.end(), pushes.begin(), pushes.end());
        std::ranges::sort(moments);
        moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
        return moments;
    }

    void look_closer_at_strikes(std::vector<double>& strength) const {
        if (!o_.use_trigger) return;
        const std::size_t near = s_.entries(struck_before_turn_s);
        std::size_t seen = 0;  // all before were looked at: a trigger may bounce
        for (std::size_t struck = 0; struck < s_.size(); ++struck) {
            if (s_.struck[struck] == 0) continue;
            const EntryRange around = clipped(struck, near, near);
            for (std::size_t i = std::max(seen, around.begin); i < around.end; ++i)
                strength[i] *= closer_look;
            seen = around.end;
        }
    }

    /// The entries of at least that size that none within `apart_s` exceeds.
    std::vector<std::size_t> peaks(const std::vector<double>& column, double least) const {
        std::vector<std::size_t> highest;
        const std::size_t apart = s_.entries(apart_s);
        for (std::size_t i = 0; i < column.size(); ++i) {
            if (column[i] < least) continue;
            const EntryRange around = clipped(i, apart, apart);
            if (std::max_element(place_at(column, around.begin), place_at(column, around.end)) ==
                place_at(column, i))
                highest.push_back(i);
        }
        return highest;
    }

    /// By what it shows itself; what it is like comes when all are known. The same once more with a later
    /// push, where there is one: which of the two it was is for the weights to say.
    std::vector<SwingCandidate> weigh(std::size_t middle, const std::vector<std::size_t>& moments) const {
        SwingCandidate c;
        c.middle = middle;
        if (!find_turn_and_arrival(c) || !find_address(c)) return {c};
        std::vector<SwingCandidate> readings{c};
        // Without signs nothing says which of two readings is right.
        const std::optional<SwingCandidate> later = signs_tell() ? with_later_push(c, moments) : std::nullopt;
        if (later) readings.push_back(*later);
        for (SwingCandidate& reading : readings) {
            apply_swing_rules(reading, s_, o_, evidence_, load_tells_);
            weigh_signs(reading);
        }
        // Where frames lack after a later push, whether it was the swing's cannot be known.
        if (readings.back().verdict == NotASwing::nobody_stands) return {readings.back()};
        return readings;
    }

    /// Once more, by how like its portrait is to those of sure swings of the same golfer.
    void compare(SwingCandidate& c, std::span<const SwingPortrait* const> swings) const {
        if (swings.size() < fewest_likened) return;
        const double strike = by_strike(c);
        c.weight = swing_log_odds(c.weight - strike, likeness_of(*c.portrait, swings)) + strike;
    }

  private:
    EntryRange clipped(std::size_t middle, std::size_t before, std::size_t after) const {
        return {middle > before ? middle - before : 0, std::min(s_.size(), middle + after + 1)};
    }
    bool usable(EntryRange range) const {
        return std::find(place_at(s_.usable, range.begin), place_at(s_.usable, range.end), 0) ==
               place_at(s_.usable, range.end);
    }

    bool find_turn_and_arrival(SwingCandidate& c) const {
        const EntryRange around = clipped(c.middle, s_.entries(turn_before_s), s_.entries(arrival_after_s));
        if (!usable(around)) {
            c.verdict = NotASwing::nobody_stands;
            return false;
        }
        c.arrival = c.middle;
        for (std::size_t i = c.middle; i < around.end; ++i) {
            if (s_.share[i] > s_.share[c.arrival]) c.arrival = i;
        }
        // Back from the fastest instant to where the return begins.
        const EntryRange fast = clipped(c.middle, s_.entries(0.2), s_.entries(0.15));
        std::size_t fastest = c.middle;
        double top_speed = 0.0;
        for (std::size_t i = std::max<std::size_t>(1, fast.begin); i + 1 < fast.end; ++i) {
            const double speed = s_.share[i + 1] - s_.share[i - 1];
            if (speed > top_speed) {
                top_speed = speed;
                fastest = i;
            }
        }
        c.turn = fastest;
        while (c.turn > around.begin + 1 &&
               s_.share[c.turn + 1] - s_.share[c.turn - 1] > begins_at_speed * top_speed)
            --c.turn;
        c.return_share = s_.share[c.arrival] - s_.share[c.turn];
        c.return_s = rise_s(c.turn, c.arrival);
        // What the weight still does in the follow-through makes no slow return.
        std::size_t slows = fastest;
        while (slows < c.arrival && s_.share[slows + 1] - s_.share[slows - 1] > begins_at_speed * top_speed)
            ++slows;
        c.quick_s = rise_s(c.turn, slows);
        const EntryRange push =
            clipped(c.middle, s_.entries(half_push_window_s), s_.entries(half_push_window_s));
        c.push_peak = static_cast<std::size_t>(
            std::max_element(place_at(s_.load_bw, push.begin), place_at(s_.load_bw, push.end)) -
            s_.load_bw.begin());
        return true;
    }

    /// Where the push is not that of another return.
    std::optional<SwingCandidate> with_later_push(SwingCandidate c,
                                                  const std::vector<std::size_t>& moments) const {
        const EntryRange later{c.middle + s_.entries(half_push_window_s) + 1,
                               std::min(s_.size(), c.middle + s_.entries(latest_push_s) + 1)};
        if (later.begin >= later.end || !usable(later)) return std::nullopt;
        const auto peak = static_cast<std::size_t>(
            std::max_element(place_at(s_.load_bw, later.begin), place_at(s_.load_bw, later.end)) -
            s_.load_bw.begin());
        const double push_bw = s_.load_bw[peak] - 1.0;
        if (peak == later.begin || peak + 1 == later.end || push_bw < least_later_push_bw ||
            push_bw < times_earlier_push * (s_.load_bw[c.push_peak] - 1.0))
            return std::nullopt;
        const EntryRange its_own =
            clipped(peak, s_.entries(half_push_window_s), s_.entries(half_push_window_s));
        const std::size_t shift = s_.entries(half_return_s);
        for (auto moment = std::ranges::lower_bound(moments, its_own.begin);
             moment != moments.end() && *moment < its_own.end; ++moment) {
            const double returns = s_.share[*moment + shift] - s_.share[*moment - shift];
            if (returns > part_of_return * c.return_share) return std::nullopt;
        }
        c.pushes_later = true;
        c.push_peak = peak;
        c.arrival = std::max(c.arrival, peak);
        c.return_share = s_.share[c.arrival] - s_.share[c.turn];
        return c;
    }

    /// From a tenth to nine tenths of the way between two entries.
    double rise_s(std::size_t from, std::size_t to) const {
        const double way = s_.share[to] - s_.share[from];
        std::size_t up = from;
        while (up < to && s_.share[up] < s_.share[from] + 0.1 * way) ++up;
        std::size_t there = up;
        while (there < to && s_.share[there] < s_.share[from] + 0.9 * way) ++there;
        return static_cast<double>(there - up) / s_.rate_hz;
    }

    bool still_until(std::size_t last) const { return unrest_[last] <= 1.0; }

    /// The last spell before the turn that is about as still as the stillest. A slow start is never quite
    /// still, so the address does not creep into the backswing where the player sways much.
    bool find_address(SwingCandidate& c) const {
        const std::size_t window = s_.entries(o_.quiet_window_s);
        const std::size_t soonest = s_.entries(o_.shortest_backswing_s);
        const std::size_t latest = s_.entries(o_.longest_backswing_s);
        std::vector<double> unrests;  // of the windows that end `soonest + i` entries before the turn
        for (std::size_t back = soonest; back <= latest && c.turn >= back + window; ++back) {
            const EntryRange range{c.turn - back - window, c.turn - back + 1};
            if (!usable(range)) break;
            unrests.push_back(unrest_[range.end - 1]);
        }
        if (unrests.empty()) {
            c.verdict = NotASwing::no_quiet_address;
            return false;
        }
        const double stillest = *std::min_element(unrests.begin(), unrests.end());
        const double allowed = std::max(0.25, as_still_as * stillest);
        std::size_t chosen = 0;
        while (unrests[chosen] > allowed) ++chosen;
        if (unrests[chosen] > 1.0) {
            c.verdict = NotASwing::no_quiet_address;
            return false;
        }
        c.quiet_to = c.turn - soonest - chosen;
        c.quiet_from = c.quiet_to - window;
        const std::size_t longest = s_.entries(1.5);
        while (c.quiet_from > 0 && c.quiet_to - c.quiet_from < longest &&
               usable({c.quiet_from - 1, c.quiet_from}) && still_until(c.quiet_from - 1 + window))
            --c.quiet_from;
        c.departure_s = static_cast<double>(c.turn - c.quiet_to) / s_.rate_hz;
        return true;
    }

    bool signs_tell() const { return s_.feet_known && load_tells_; }

    /// The rules know what cannot be a swing of this kind or that; the signs together tell more of golfers
    /// whom nobody thought of when the rules were made, so that they may overrule them. They were learned of
    /// shares under both feet and of loads that move.
    void weigh_signs(SwingCandidate& c) const {
        if (c.verdict == NotASwing::nobody_stands || !signs_tell()) return;
        c.by_rules = c.verdict == NotASwing::none;
        c.signs = signs_of(c, s_, o_, evidence_, unrest_);
        const double by_signs = swing_log_odds(*c.signs);
        if (by_signs >= least_log_odds_to_compare) c.portrait = portrait_of(c, s_);
        c.weight = by_signs + by_strike(c);
        c.sure = c.portrait && c.weight >= log_odds_of_sure_swing;
    }

    double by_strike(const SwingCandidate& c) const {
        return evidence_.was_struck(c) ? log_odds_by_strike : 0.0;
    }

    const StanceSignals& s_;
    const SwingOptions& o_;
    double quiet_share_;
    double quiet_load_;
    double quiet_forward_;
    SwingEvidence evidence_;
    bool load_tells_ = true;
    std::vector<double> unrest_;
};

/// A movement that the rules took for none may be one by all that is known of it, and the other way round.
void decide(SwingCandidate& c) {
    if (!c.signs) return;
    if (c.weight >= (c.by_rules ? log_odds_with_rules : log_odds_of_swing)) {
        c.verdict = NotASwing::none;
    } else if (c.by_rules) {
        c.verdict = NotASwing::unlikely;
    }
}

}  // namespace

std::vector<SwingCandidate> weigh_candidates(const StanceSignals& signals, const SwingOptions& options,
                                             std::span<const SwingPortrait> earlier) {
    std::vector<SwingCandidate> candidates;
    const Weigher weigher(signals, options);
    const std::vector<std::size_t> moments = weigher.quick_moments();
    for (const std::size_t moment : moments) {
        for (SwingCandidate& reading : weigher.weigh(moment, moments))
            candidates.push_back(std::move(reading));
    }
    std::vector<const SwingCandidate*> sure;
    for (const std::size_t place :
         strongest_apart(candidates, signals.rate_hz, [](const SwingCandidate& c) { return c.sure; }))
        sure.push_back(&candidates[place]);
    for (SwingCandidate& candidate : candidates) {
        if (candidate.portrait)
            weigher.compare(candidate, portraits_near(candidate, signals.rate_hz, sure, earlier));
        decide(candidate);
    }
    return candidates;
}

std::vector<SwingCandidate> find_swings(const StanceSignals& signals, const SwingOptions& options,
                                        std::span<const SwingPortrait> earlier) {
    std::vector<SwingCandidate> candidates = weigh_candidates(signals, options, earlier);
    std::vector<SwingCandidate> swings;
    for (const std::size_t place : strongest_apart(candidates, signals.rate_hz, [](const SwingCandidate& c) {
             return c.verdict == NotASwing::none;
         }))
        swings.push_back(std::move(candidates[place]));
    return swings;
}

}  // namespace footing
