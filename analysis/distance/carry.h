#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace footing {

/// How far back the coach asks the student to swing. Three lengths a wedge: three wedges make nine numbers,
/// four make twelve (facts of the trade).
enum class SwingLength { half, three_quarter, full };

inline constexpr std::array swing_lengths{SwingLength::half, SwingLength::three_quarter, SwingLength::full};

[[nodiscard]] std::string length_name(SwingLength length);  ///< half, three-quarter, full
/// The length of this name; "3/4" is three-quarter too, and "1/2" half.
[[nodiscard]] std::optional<SwingLength> length_called(std::string_view name);

/// What the coach says about a shot; it stands above every test.
enum class CoachSays { nothing, keep, set_aside };

/// One shot's carry as the distance chart takes it.
struct Carry {
    std::int64_t shot = 0;  ///< whatever the caller knows it by
    double carry_m = 0.0;
    CoachSays coach = CoachSays::nothing;
    std::string reason;    ///< the coach's; may be empty
    std::int64_t day = 0;  ///< when it was hit, days since 1970-01-01
};

/// In which unit a student plays.
enum class DistanceUnit { yards, metres };

inline constexpr double metres_per_yard = 0.9144;  ///< exact (international yard, 1959)

[[nodiscard]] double metres_per(DistanceUnit unit);
[[nodiscard]] std::string unit_name(DistanceUnit unit);  ///< yd, m
/// "82 yd", "82.4 m"; a true minus sign.
[[nodiscard]] std::string distance_words(double metres, DistanceUnit unit, int decimals = 0);

}  // namespace footing
