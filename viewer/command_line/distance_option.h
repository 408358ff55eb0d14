#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/distance/carry.h"

namespace footing {

/// "83", "83yd", "75.5 m" as metres; a bare number is in `unit`. Finite, from 0 to 500 m. Fails with
/// command_line.
[[nodiscard]] Result<double> parse_distance(const std::string& text, DistanceUnit unit,
                                            const std::string& option);

/// The same for a carry, which is more than nothing, and no farther than any wedge's unless that is meant.
/// Fails with command_line.
[[nodiscard]] Result<double> parse_carry(const std::string& text, DistanceUnit unit, FarCarry far);

/// "3 right", "4yd left", "-2" (left) as metres to the right. Fails with command_line.
[[nodiscard]] Result<double> parse_side(const std::string& text, DistanceUnit unit);

}  // namespace footing
