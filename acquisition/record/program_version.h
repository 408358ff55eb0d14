#pragma once

#include <string_view>

namespace footing {

/// Stands in every recording. The same as in CMakeLists.txt.
inline constexpr std::string_view program_version = "0.1.0";

}  // namespace footing
