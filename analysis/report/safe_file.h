#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/result.h"

namespace footing {

/// Writes a whole file so that at every instant either the old one or the new one is there: a new file beside
/// it under a name that nobody has (created exclusively), written, synchronised, renamed over `path`, and the
/// folder synchronised. Fails with disk_failed (full, no such folder, not allowed), and then leaves nothing
/// behind. A device or a pipe is written to, never replaced.
[[nodiscard]] Outcome write_file_safely(const std::string& path, std::string_view bytes);

}  // namespace footing
