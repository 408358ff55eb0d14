#include "acquisition/import/last_change.h"

#include <chrono>
#include <system_error>

namespace footing {

std::int64_t last_change_utc_ns(const std::filesystem::path& path) {
    std::error_code error;
    const auto changed = std::filesystem::last_write_time(path, error);
    if (error) return 0;
    const auto wall = std::chrono::file_clock::to_sys(changed);
    return std::chrono::duration_cast<std::chrono::nanoseconds>(wall.time_since_epoch()).count();
}

}  // namespace footing
