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

}  // namespace footing
