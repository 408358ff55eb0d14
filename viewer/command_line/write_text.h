#pragma once

#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// Writes text to a file, or to standard output when `target` is "-". A file appears whole or not at all.
/// Fails with disk_failed.
[[nodiscard]] Outcome write_text(const std::string& target, const std::string& text);

}  // namespace footing
