#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <tuple>

#include "analysis/swing/swing.h"

namespace footing {

/// How much later than a witness tells it a golfer strikes.
struct StrikeLag {
    double value_s = 0.0;
    double u_s = 0.0;        ///< standard uncertainty for one more swing
    std::size_t swings = 0;  ///< that told it; 0: nothing is known
};

/// Of each witness (docs/formulas.md, F26): golfers differ in that by more than 0.1 s, while one golfer's
/// swings are alike.
using StrikeLags = std::array<StrikeLag, std::tuple_size_v<StrikeWitnesses>>;
/// Places among the witnesses: the share's return, which is always there, and the peak of the push.
inline constexpr std::size_t share_witness = 0;
inline constexpr std::size_t push_witness = 1;

/// Whether the trigger or ripples tell that a ball was struck, so that the swing teaches how its golfer
/// strikes. A single ripple may be something else (tell_kinds): it teaches nothing, nor
/// does a trigger where the coach says that it was a practice swing.
[[nodiscard]] bool teaches(const Swing& swing);

/// Learned of swings whose strike was told otherwise: Swing::strike_after_witnesses_s of each. What lies far
/// from the others, or from all golfers, is left out.
[[nodiscard]] StrikeLags learn_strike_lags(std::span<const StrikeWitnesses> later_s);

/// How much later than the share's return or the push, whichever is nearer, tells them the trigger tells
/// strikes, s: the median of two or more.
[[nodiscard]] std::optional<double> trigger_lag_s(std::span<const Swing> swings);

/// A trigger further off, either way, may be delayed, or fire by something else.
inline constexpr double doubtful_trigger_lag_s = 0.18;

}  // namespace footing
