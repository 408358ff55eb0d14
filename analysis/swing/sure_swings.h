#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_portrait.h"

namespace footing {

/// Of two swings nearer to one another only one is one.
inline constexpr double swings_apart_s = 1.5;

/// The places of those that are wanted; of those that overlap the strongest.
[[nodiscard]] std::vector<std::size_t> strongest_apart(const std::vector<SwingCandidate>& candidates,
                                                       double rate_hz,
                                                       bool (*is_wanted)(const SwingCandidate&));

/// The portraits of the sure swings nearest in time to a candidate, without its own; earlier ones are further
/// away than those of the recording. `sure`: in order of time.
[[nodiscard]] std::vector<const SwingPortrait*> portraits_near(const SwingCandidate& candidate,
                                                               double rate_hz,
                                                               const std::vector<const SwingCandidate*>& sure,
                                                               std::span<const SwingPortrait> earlier);

}  // namespace footing
