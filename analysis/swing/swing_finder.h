#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analysis/swing/not_a_swing.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/swing_portrait.h"
#include "analysis/swing/swing_signs.h"

namespace footing {

/// A movement is a swing by its signs alone from these log odds on;
/// where the rules say that it is one, from the lower ones on.
inline constexpr double log_odds_of_swing = 0.5;
inline constexpr double log_odds_with_rules = -1.5;
/// What a trigger's edge adds: seven shots in ten have one, and one in a hundred of what moves besides, by
/// chance or by a stray one [our own].
inline constexpr double log_odds_by_strike = 4.25;
/// From these on, by its signs and the trigger alone, a swing tells what others of the recording look like.
inline constexpr double log_odds_of_sure_swing = 2.5;

/// How long before the return seems to begin a ball may be struck: where the weight goes on moving through
/// the strike the quickest part of the return comes after it, s.
inline constexpr double struck_before_turn_s = 0.35;

/// A quick movement that may be a swing, with the evidence, in entries of StanceSignals.
struct SwingCandidate {
    NotASwing verdict = NotASwing::none;
    std::size_t middle = 0;      ///< of the fast return
    std::size_t quiet_from = 0;  ///< the address was still from here …
    std::size_t quiet_to = 0;    ///< … to here
    std::size_t turn = 0;        ///< the quick return to the lead foot begins
    std::size_t arrival = 0;     ///< the return is over, and so is a push that comes later
    std::size_t push_peak = 0;   ///< largest load around the return, or that of the later push
    double return_share = 0.0;   ///< change of share from turn to arrival
    double quick_s = 0.0;        ///< as return_s, but without what the follow-through adds
    double return_s = 0.0;       ///< from a tenth to nine tenths of the return itself
    double push_bw = 0.0;        ///< largest load above that of the address during the return
    double departure_s = 0.0;    ///< from the end of the quiet spell to the turn
    bool departed = false;       ///< the backswing was seen before the turn
    bool pushes_later = false;   ///< taken to end in a push that comes when the weight is back already
    double weight = 0.0;         ///< how strong the evidence is; of two that overlap the stronger stays
    bool by_rules = false;       ///< a swing by the rules alone
    bool sure = false;           ///< tells what others of the recording look like
    /// What the log odds of being a swing are told from; absent where they were learned of nothing like it.
    std::optional<SwingSigns> signs;
    std::optional<SwingPortrait> portrait;  ///< absent where it is plainly no swing, too
};

/// Everything that was looked at, in order of time, rejected ones included (docs/formulas.md, F20 to F22).
/// `earlier`: of the same golfer's sure swings before the signals begin, in order of time.
[[nodiscard]] std::vector<SwingCandidate> weigh_candidates(const StanceSignals& signals,
                                                           const SwingOptions& options,
                                                           std::span<const SwingPortrait> earlier = {});

/// The swings: accepted candidates that do not overlap, in order of time.
[[nodiscard]] std::vector<SwingCandidate> find_swings(const StanceSignals& signals,
                                                      const SwingOptions& options,
                                                      std::span<const SwingPortrait> earlier = {});

}  // namespace footing
