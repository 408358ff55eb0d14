#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace footing {

/// Which swing each row of a table belongs to; nothing where none fits.
struct ShotMatch {
    std::vector<std::optional<std::size_t>> swing_of_row;  ///< index into the swings
    std::optional<double> clock_offset_s;  ///< the device's clock less the computer's; by time only
};

enum class MatchFailure { none, too_few, ambiguous };

struct MatchByTime {
    MatchFailure failure = MatchFailure::none;
    ShotMatch match;
};

/// Matches shots to swings by time, in order, whatever the device's clock is off by (up to ten minutes): the
/// one offset that puts the most shots within three seconds of a swing. `too_few`: fewer than three, unless
/// it is all of them; `ambiguous`: another offset does as well with other pairs. Times in seconds, rising.
[[nodiscard]] MatchByTime match_by_time(const std::vector<double>& shots_s,
                                        const std::vector<double>& swings_s);

/// The same where the offset is known: each shot with the first swing within three seconds that is still
/// free.
[[nodiscard]] ShotMatch match_at(const std::vector<double>& shots_s, const std::vector<double>& swings_s,
                                 double clock_offset_s);

}  // namespace footing
