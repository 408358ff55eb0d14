#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_portrait.h"

namespace footing {

/// In what a movement is like a swing: a golfer's swings are like one another, and what moves besides is like
/// none of them.
enum class LikenessSign : std::size_t {
    load_alike,      ///< correlation of the loads about the pushes, -1 to 1
    share_alike,     ///< the same of the shares
    address_apart,   ///< of the shares at address
    rest_apart,      ///< of SwingSign::rest_level
    push_apart,      ///< of the natural logarithms of the pushes
    away_apart,      ///< of the natural logarithms of the backswings' times
    lateness_apart,  ///< of how much later than the return the push is, s
    count
};

constexpr std::size_t likeness_sign_count = static_cast<std::size_t>(LikenessSign::count);
using Likeness = std::array<double, likeness_sign_count>;

/// Two swings at least, and of many those nearest in time, tell what this golfer's look like.
inline constexpr std::size_t fewest_likened = 2;
inline constexpr std::size_t most_likened = 8;

/// Of a candidate whose signs are known; nothing where the recording begins, ends or lacks frames so near.
[[nodiscard]] std::optional<SwingPortrait> portrait_of(const SwingCandidate& candidate,
                                                       const StanceSignals& signals);

/// The median likeness to the others, sign by sign. All portraits are of one rate, `others` not empty.
[[nodiscard]] Likeness likeness_of(const SwingPortrait& portrait,
                                   std::span<const SwingPortrait* const> others);

}  // namespace footing
