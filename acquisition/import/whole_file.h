#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// All of a file as text. Fails with bad_input: no such file, a folder, not readable, or longer than
/// `most_bytes`.
[[nodiscard]] Result<std::string> read_whole_file(const std::filesystem::path& path,
                                                  std::uint64_t most_bytes);

}  // namespace footing
