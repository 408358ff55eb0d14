#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Where the cells of plates are, or how large a grid is: the same JSON as a device's description, in which
/// "serial" may be missing (then 0), and "rate_hz" (then 0: not known). Fails with bad_input.
[[nodiscard]] Result<DeviceDescription> parse_layout(std::string_view json, const std::string& place);
[[nodiscard]] Result<DeviceDescription> read_layout_file(const std::filesystem::path& path);

}  // namespace footing
