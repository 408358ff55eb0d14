#include "analysis/swing/swing_rules.h"

#include <algorithm>

namespace footing {

namespace {

/// A return without a vertical push must be quick; the more push, the more time it may take.
constexpr double quick_return_s = 0.25;
constexpr double slowest_return_s = 0.45;
constexpr double slowest_return_with_push_s = 0.6;
constexpr double more_s_for_push = 4.0;
constexpr double more_s_for_clear_push = 6.0;
constexpr double wide_shift = 0.10;  ///< a small shift has no excuse for being slow
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

/// The rules about one candidate, in the order in which they are asked.
class SwingRules {
  public:
    SwingRules(SwingCandidate& candidate, const StanceSignals& signals, const SwingOptions& options,
               const SwingEvidence& evidence, bool load_tells)
        : c_(candidate),
          s_(signals),
          o_(options),
          evidence_(evidence),
          load_tells_(load_tells),
          hold_end_(std::min(signals.size(), candidate.arrival + signals.entries(0.5) + 1)),
          whole_{candidate.quiet_from, hold_end_},
          address_{candidate.quiet_to - signals.entries(options.quiet_window_s), candidate.quiet_to + 1},
          address_bw_(mean(signals.load_bw, address_)),
          address_share_(mean(signals.share, address_)),
          least_push_(std::max(options.least_push_bw, 4.0 * signals.usual_load_change_bw)),
          least_shift_(std::max(options.least_shift, 3.0 * signals.usual_share_change)) {}

    NotASwing verdict() {
        if (!somebody_stands()) return NotASwing::nobody_stands;
        c_.push_bw = s_.load_bw[c_.push_peak] - address_bw_;
        c_.weight = c_.return_share / look_share + c_.push_bw / look_push_bw;
        if (foot_is_lifted()) return NotASwing::one_foot_lifted;
        if (evidence_.impulse(c_, address_bw_) > most_impulse_bw_s) return NotASwing::anothers_load;
        see_push_and_backswing();
        if (foot_is_put_down()) return NotASwing::one_foot_lifted;
        if (is_burst() || is_struck()) return NotASwing::none;
        if (is_too_small()) return NotASwing::too_small;
        if (took_s_ > longest_return_s()) return NotASwing::too_slow;
        if (!is_held_ || !ends_beyond() || (load_tells_ && !pushed_ && !stays_beyond_))
            return NotASwing::not_held;
        return lacks_backswing() ? NotASwing::no_backswing : NotASwing::none;
    }

  private:
    bool somebody_stands() const {
        const auto [least, most] =
            std::minmax_element(place_at(s_.load_bw, whole_.begin), place_at(s_.load_bw, whole_.end));
        const bool all_known = std::find(place_at(s_.usable, whole_.begin), place_at(s_.usable, whole_.end),
                                         0) == place_at(s_.usable, whole_.end);
        return all_known && *least >= o_.least_load_bw && *most <= o_.most_load_bw;
    }

    bool foot_is_lifted() const {
        const double widest = s_.feet_known ? widest_without_push : step_across;
        return (s_.feet_known && evidence_.foot_lifted(c_, whole_)) ||
               (c_.return_share > widest && c_.push_bw < push_of_wide_shift_bw);
    }

    void see_push_and_backswing() {
        pushed_ = !load_tells_ || c_.push_bw >= least_push_;
        pushed_plainly_ = c_.push_bw >= std::max(plain_push_bw, 1.3 * least_push_) &&
                          evidence_.push_comes_first(c_, address_bw_) &&
                          evidence_.push_s(c_, address_bw_) <= longest_push_s;
        closes_ = evidence_.impulse_left(c_, address_bw_) <= most_impulse_left;
        // Where a clear push tells of a strike, what the weight does in the follow-through is not looked at.
        push_tells_ = pushed_plainly_ || (closes_ && c_.push_bw >= large_push_bw);
        took_s_ = push_tells_ ? c_.quick_s : c_.return_s;
        seems_departed_ = evidence_.departed(c_, address_, usual_changes_of_departure);
        c_.departed = c_.push_bw >= push_for_slight_departure_bw
                          ? seems_departed_
                          : evidence_.departed(c_, address_, usual_changes_without_push);
        stays_beyond_ = evidence_.rests_beyond(c_, hold_end_, address_share_,
                                               pushed_ ? beyond_part : beyond_part_without_push);
        is_held_ = evidence_.is_held(c_, hold_end_);
    }

    /// A foot put down hard pushes too, but only once the shift is over.
    bool foot_is_put_down() const {
        if (c_.return_share <= lifted_shift) return false;
        const bool only_away = !stays_beyond_ && evidence_.away_s(c_, address_share_) < shortest_away_s;
        const bool put_down = !is_held_ && c_.push_peak >= c_.arrival;
        return only_away || put_down || c_.return_s < quickest_wide_return_s;
    }

    /// A quick push out of rest and back to rest whose momentum closes is a strike even where sway hides how
    /// small a backswing went before.
    bool is_burst() const {
        return pushed_plainly_ && closes_ && c_.return_share > 0.0 &&
               evidence_.load_comes_to_rest(c_, address_bw_) && evidence_.load_was_at_rest(c_, address_bw_) &&
               (c_.departed || (stays_beyond_ && !evidence_.bent_before(c_, address_bw_)));
    }

    /// A ball was struck during the return, or during a push: what would be too little by itself is a swing.
    bool is_struck() const {
        const bool returning = seems_departed_ && c_.return_share >= least_shift_ && ends_beyond() &&
                               took_s_ <= slowest_return_s && is_held_;
        return evidence_.was_struck(c_) && (returning || (pushed_plainly_ && closes_));
    }

    bool is_too_small() const {
        const bool push_is_small =
            !closes_ || c_.push_bw < std::max(push_for_small_shift_bw, 1.3 * least_push_);
        return c_.return_share < least_shift_ || (!pushed_ && c_.return_share < shift_without_push) ||
               (c_.return_share < small_shift && load_tells_ && push_is_small);
    }

    double longest_return_s() const {
        if (!load_tells_) return slowest_return_s;
        if (c_.return_share < wide_shift) return quick_return_s;
        const double more_s =
            (push_tells_ ? more_s_for_clear_push : more_s_for_push) * std::max(0.0, c_.push_bw - least_push_);
        return std::min(push_tells_ ? slowest_return_with_push_s : slowest_return_s, quick_return_s + more_s);
    }

    /// Nearer the lead foot than it began.
    bool ends_beyond() const {
        return s_.share[c_.arrival] - address_share_ >= std::max(0.004, beyond_part * c_.return_share);
    }

    bool lacks_backswing() const {
        return !c_.departed && (!load_tells_ || c_.push_bw < plain_push_bw ||
                                c_.return_share < shift_without_backswing || c_.quick_s > quick_return_s);
    }

    SwingCandidate& c_;
    const StanceSignals& s_;
    const SwingOptions& o_;
    const SwingEvidence& evidence_;
    bool load_tells_;
    std::size_t hold_end_;
    EntryRange whole_;
    EntryRange address_;
    double address_bw_;
    double address_share_;
    double least_push_;
    double least_shift_;
    bool pushed_ = false;
    bool pushed_plainly_ = false;
    bool closes_ = false;
    bool push_tells_ = false;
    bool seems_departed_ = false;
    bool stays_beyond_ = false;
    bool is_held_ = false;
    double took_s_ = 0.0;  ///< of the return
};

}  // namespace

void apply_swing_rules(SwingCandidate& candidate, const StanceSignals& signals, const SwingOptions& options,
                       const SwingEvidence& evidence, bool load_tells) {
    candidate.verdict = SwingRules(candidate, signals, options, evidence, load_tells).verdict();
}

}  // namespace footing
