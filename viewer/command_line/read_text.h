#pragma once

#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// The whole of a small text file (at most 4 MB). Fails with bad_input: missing, a folder, too large.
[[nodiscard]] Result<std::string> read_text(const std::string& path);

}  // namespace footing
