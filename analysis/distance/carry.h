#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "acquisition/frame/swing_length.h"

namespace footing {

/// What the coach says about a shot; it stands above every test.
enum class CoachSays { nothing, keep, set_aside };

/// One shot's carry as the distance chart takes it.
struct Carry {
    std::int64_t shot = 0;  ///< by what the caller finds it again
    double carry_m = 0.0;
    CoachSays coach = CoachSays::nothing;
    std::string reason;    ///< the coach's; may be empty
    std::int64_t day = 0;  ///< when it was hit, days since 1970-01-01
};

/// In which unit a student plays.
enum class DistanceUnit { yards, metres };

/// What a carry, or the distance to a side, can be at most.
inline constexpr double longest_carry_m = 500.0;

inline constexpr double metres_per_yard = 0.9144;  ///< exact (international yard, 1959)

[[nodiscard]] double metres_per(DistanceUnit unit);
[[nodiscard]] std::string unit_name(DistanceUnit unit);  ///< yd, m
/// "82 yd", "82.4 m"; a true minus sign.
[[nodiscard]] std::string distance_words(double metres, DistanceUnit unit, int decimals = 0);
/// A limit as it was given: "3 yd", "2.8 m".
[[nodiscard]] std::string limit_words(double metres, DistanceUnit unit);

}  // namespace footing
