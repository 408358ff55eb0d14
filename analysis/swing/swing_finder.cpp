#include "analysis/swing/swing_finder.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "analysis/swing/sign_reader.h"
#include "analysis/swing/swing_evidence.h"
#include "analysis/swing/swing_odds.h"

namespace footing {

namespace {

// Sizes that make a movement worth a closer look, and how far around it is looked.
constexpr double look_share = 0.03;
constexpr double look_push_bw = 0.05;
constexpr double least_look = 0.5;
constexpr double least_push_look = 0.4;
constexpr double half_return_s = 0.14;
constexpr double half_push_s = 0.28;
constexpr double apart_s = 0.30;  ///< candidates are the strongest within this
constexpr double turn_before_s = 0.60;
constexpr double arrival_after_s = 0.40;
/// The return begins where its speed is this part of its highest.
constexpr double begins_at_speed = 0.25;
/// A return without a vertical push must be quick; the more push, the more time it may take.
constexpr double quick_return_s = 0.25;
constexpr double slowest_return_s = 0.45;
constexpr double slowest_return_with_push_s = 0.6;
constexpr double more_s_for_push = 4.0;
constexpr double more_s_for_clear_push = 6.0;
constexpr double wide_shift = 0.10;  ///< a small shift has no excuse for being slow
/// The address may be this many times less still than the stillest spell before the swing.
constexpr double as_still_as = 1.7;
constexpr double shift_without_push = 0.15;
constexpr double shift_without_backswing = 0.08;
/// Where the feet cannot be told apart, a shift from the middle to one foot looks like this, and a swing
/// pushes more.
constexpr double step_across = 0.35;
constexpr double push_of_wide_shift_bw = 0.06;
/// Where they can, a shift from nearly all of the weight to nearly none of it does.
constexpr double widest_without_push = 0.6;
/// A swing ends nearer the lead foot than it began, by at least this part of the return.
constexpr double beyond_part = 0.12;
/// A push that tells a swing by itself, without help from the share, and how much the load may sink before
/// it.
constexpr double plain_push_bw = 0.036;
/// With this much push what the weight does in the follow-through is no sign of a slow shift.
constexpr double large_push_bw = 0.06;
/// A backswing is seen when share or forward CoP leave the address by so many usual changes: more without
/// much of a push, since weight that is shifted to settle has no backswing.
constexpr double usual_changes_of_departure = 2.0;
constexpr double usual_changes_without_push = 3.0;
constexpr double push_for_slight_departure_bw = 0.04;
/// Small movements of the share need a clearer push.
constexpr double small_shift = 0.06;
constexpr double push_for_small_shift_bw = 0.02;
/// A load that never moves by more than this, quick against slow, was made even before it came here.
constexpr double even_load_bw = 0.0005;
/// Whoever begins and ends at rest has a mean load of one body weight: more impulse than this, in body
/// weights times seconds, is somebody else's load or a landing.
constexpr double most_impulse_bw_s = 0.15;
/// A foot that is lifted and put down again is away from the address for less than this, and back where it
/// was afterwards.
constexpr double shortest_away_s = 0.27;
constexpr double lifted_shift = 0.10;
/// A swing's push is over sooner than that of who bends or gets up.
constexpr double longest_push_s = 0.2;
/// A wide shift quicker than this is a foot put down: the body's mass cannot be moved so soon.
constexpr double quickest_wide_return_s = 0.085;
/// A push that closes leaves at most this part of its impulse.
constexpr double most_impulse_left = 0.7;
/// Without a push a swing must end nearer the lead foot than it began by this part of the return.
constexpr double beyond_part_without_push = 0.2;

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
        std::vector<std::size_t> moments = peaks(strength, least_look);
        const std::vector<std::size_t> pushes = peaks(push, least_push_look);
        moments.insert(moments.end(), pushes.begin(), pushes.end());
        std::ranges::sort(moments);
        moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
        return moments;
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

    SwingCandidate weigh(std::size_t middle) const {
        SwingCandidate c;
        c.middle = middle;
        if (!find_turn_and_arrival(c)) return c;
        if (!find_address(c)) return c;
        decide(c);
        weigh_signs(c);
        return c;
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
        const EntryRange push = clipped(c.middle, s_.entries(0.25), s_.entries(0.25));
        c.push_peak = static_cast<std::size_t>(
            std::max_element(place_at(s_.load_bw, push.begin), place_at(s_.load_bw, push.end)) -
            s_.load_bw.begin());
        return true;
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

    /// The rules know what cannot be a swing of this kind or that; the signs together tell more of golfers
    /// whom nobody thought of when the rules were made, so that they may overrule them. They were learned of
    /// shares under both feet and of loads that move.
    void weigh_signs(SwingCandidate& c) const {
        if (c.verdict == NotASwing::nobody_stands || !s_.feet_known || !load_tells_) return;
        c.by_rules = c.verdict == NotASwing::none;
        c.signs = signs_of(c, s_, o_, evidence_, unrest_);
        c.weight = swing_log_odds(*c.signs);
        if (c.weight >= (c.by_rules ? log_odds_with_rules : log_odds_of_swing)) {
            c.verdict = NotASwing::none;
        } else if (c.by_rules) {
            c.verdict = NotASwing::unlikely;
        }
    }

    /// What the backswing, the return and the hold show.
    void decide(SwingCandidate& c) const {
        const std::size_t hold_end = std::min(s_.size(), c.arrival + s_.entries(0.5) + 1);
        const EntryRange whole{c.quiet_from, hold_end};
        const EntryRange address{c.quiet_to - s_.entries(o_.quiet_window_s), c.quiet_to + 1};
        const double address_bw = mean(s_.load_bw, address);
        const double address_share = mean(s_.share, address);
        const auto [least, most] =
            std::minmax_element(place_at(s_.load_bw, whole.begin), place_at(s_.load_bw, whole.end));
        if (!usable(whole) || *least < o_.least_load_bw || *most > o_.most_load_bw) {
            c.verdict = NotASwing::nobody_stands;
            return;
        }
        c.push_bw = s_.load_bw[c.push_peak] - address_bw;
        c.weight = c.return_share / look_share + c.push_bw / look_push_bw;
        const double widest = s_.feet_known ? widest_without_push : step_across;
        const bool lifted = (s_.feet_known && evidence_.foot_lifted(c, whole)) ||
                            (c.return_share > widest && c.push_bw < push_of_wide_shift_bw);
        if (lifted) {
            c.verdict = NotASwing::one_foot_lifted;
            return;
        }
        const double least_push = std::max(o_.least_push_bw, 4.0 * s_.usual_load_change_bw);
        const double least_shift = std::max(o_.least_shift, 3.0 * s_.usual_share_change);
        const bool pushed = !load_tells_ || c.push_bw >= least_push;
        const bool pushed_plainly = c.push_bw >= std::max(plain_push_bw, 1.3 * least_push) &&
                                    evidence_.push_comes_first(c, address_bw) &&
                                    evidence_.push_s(c, address_bw) <= longest_push_s;
        const bool comes_to_rest = evidence_.load_comes_to_rest(c, address_bw);
        if (evidence_.impulse(c, address_bw) > most_impulse_bw_s) {
            c.verdict = NotASwing::anothers_load;
            return;
        }
        const bool seems_departed = evidence_.departed(c, address, usual_changes_of_departure);
        c.departed = c.push_bw >= push_for_slight_departure_bw
                         ? seems_departed
                         : evidence_.departed(c, address, usual_changes_without_push);
        const bool stays_beyond = evidence_.rests_beyond(c, hold_end, address_share,
                                                         pushed ? beyond_part : beyond_part_without_push);
        if (!stays_beyond && c.return_share > lifted_shift &&
            evidence_.away_s(c, address_share) < shortest_away_s) {
            c.verdict = NotASwing::one_foot_lifted;
            return;
        }
        // A foot put down hard pushes too, but only once the shift is over.
        const bool is_held = evidence_.is_held(c, hold_end);
        const bool put_down = !is_held && c.push_peak >= c.arrival;
        if (c.return_share > lifted_shift && (put_down || c.return_s < quickest_wide_return_s)) {
            c.verdict = NotASwing::one_foot_lifted;
            return;
        }
        // A quick push out of rest and back to rest whose momentum closes is a strike even where sway hides
        // how small a backswing went before.
        const bool closes = evidence_.impulse_left(c, address_bw) <= most_impulse_left;
        const bool burst =
            pushed_plainly && comes_to_rest && closes && evidence_.load_was_at_rest(c, address_bw);
        if (burst && c.return_share > 0.0 &&
            (c.departed || (stays_beyond && !evidence_.bent_before(c, address_bw))))
            return;
        // Where a clear push tells of a strike, what the weight does in the follow-through is not looked at.
        const bool push_tells = pushed_plainly || (closes && c.push_bw >= large_push_bw);
        const double took_s = push_tells ? c.quick_s : c.return_s;
        const double more_s =
            (push_tells ? more_s_for_clear_push : more_s_for_push) * std::max(0.0, c.push_bw - least_push);
        const double longest_s = !load_tells_ ? slowest_return_s
                                 : c.return_share < wide_shift
                                     ? quick_return_s
                                     : std::min(push_tells ? slowest_return_with_push_s : slowest_return_s,
                                                quick_return_s + more_s);
        const bool beyond =
            s_.share[c.arrival] - address_share >= std::max(0.004, beyond_part * c.return_share);
        // A ball was struck during the return, or during a push: what would be too little by itself is a
        // swing.
        const bool struck_returning = seems_departed && c.return_share >= least_shift && beyond &&
                                      took_s <= slowest_return_s && is_held;
        if (evidence_.was_struck(c) && (struck_returning || (pushed_plainly && closes))) return;
        if (c.return_share < least_shift || (!pushed && c.return_share < shift_without_push) ||
            (c.return_share < small_shift && load_tells_ &&
             (!closes || c.push_bw < std::max(push_for_small_shift_bw, 1.3 * least_push)))) {
            c.verdict = NotASwing::too_small;
        } else if (took_s > longest_s) {
            c.verdict = NotASwing::too_slow;
        } else if (!is_held || !beyond || (load_tells_ && !pushed && !stays_beyond)) {
            c.verdict = NotASwing::not_held;
        } else if (!c.departed && (!load_tells_ || c.push_bw < plain_push_bw ||
                                   c.return_share < shift_without_backswing || c.quick_s > quick_return_s)) {
            c.verdict = NotASwing::no_backswing;
        }
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

}  // namespace

std::vector<SwingCandidate> weigh_candidates(const StanceSignals& signals, const SwingOptions& options) {
    std::vector<SwingCandidate> candidates;
    const Weigher weigher(signals, options);
    for (const std::size_t moment : weigher.quick_moments()) candidates.push_back(weigher.weigh(moment));
    return candidates;
}

std::vector<SwingCandidate> find_swings(const StanceSignals& signals, const SwingOptions& options) {
    std::vector<SwingCandidate> swings;
    const std::size_t apart = signals.entries(1.5);
    for (const SwingCandidate& candidate : weigh_candidates(signals, options)) {
        if (candidate.verdict != NotASwing::none) continue;
        if (!swings.empty() && candidate.middle - swings.back().middle < apart) {
            if (candidate.weight > swings.back().weight) swings.back() = candidate;
            continue;
        }
        swings.push_back(candidate);
    }
    return swings;
}

}  // namespace footing
