#pragma once

#include <cstdint>
#include <filesystem>

namespace footing {

/// When a file was last changed, in nanoseconds since 1970 UTC; 0 where that cannot be learnt. The start of
/// an imported recording, for want of a better one.
[[nodiscard]] std::int64_t last_change_utc_ns(const std::filesystem::path& path);

}  // namespace footing
