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

/// Farther than any wedge carries: what is typed beyond it is asked about before it is taken. Common
/// practice, no source: the strongest professionals carry their longest wedge some 140 yards.
inline constexpr double wedge_reach_m = 200.0 * metres_per_yard;
/// What is done with such a carry.
enum class FarCarry { asked_about, taken };

[[nodiscard]] double metres_per(DistanceUnit unit);
[[nodiscard]] std::string unit_name(DistanceUnit unit);  ///< yd, m
/// "82 yd", "82.4 m"; a true minus sign.
[[nodiscard]] std::string distance_words(double metres, DistanceUnit unit, int decimals = 0);
/// A mean carry with half its interval's width, "62 ± 2 yd", in whole yards or metres: carries are read so.
[[nodiscard]] std::string distance_words(double metres, double half_width_m, DistanceUnit unit);
/// "400 yd is farther than any wedge carries (200 yd)"; empty for a carry that a wedge may have.
[[nodiscard]] std::string beyond_reach_words(double carry_m, DistanceUnit unit);
/// A limit as it was given: "3 yd", "2.8 m".
[[nodiscard]] std::string limit_words(double metres, DistanceUnit unit);

}  // namespace footing
