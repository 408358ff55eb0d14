#pragma once

#include <string_view>

namespace footing {

/// How the names of the simulated golfer's devices begin. By it a recording still tells, years later, that
/// nobody stood on plates.
inline constexpr std::string_view simulated_golfer = "simulated golfer";

/// Whether one of these devices, by its name, is the simulated golfer: a lesson on it is nobody's swings.
[[nodiscard]] inline bool is_simulated_golfer(std::string_view device_names) {
    return device_names.find(simulated_golfer) != std::string_view::npos;
}

}  // namespace footing
