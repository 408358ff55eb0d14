#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/record/safe_file.h"

namespace footing {

/// Writes text to a file, or to standard output when `target` is "-". A file appears whole or not at all.
/// Fails with disk_failed.
[[nodiscard]] Outcome write_text(const std::string& target, const std::string& text,
                                 FileReaders readers = FileReaders::as_usual);

}  // namespace footing
