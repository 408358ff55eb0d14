#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace footing {

/// Where a recording came from when it was made of a file of another kind: "imported from swings.csv".
[[nodiscard]] std::string imported_origin(const std::filesystem::path& file);

/// Whether that is what RecordingInfo::origin says.
[[nodiscard]] bool is_imported(std::string_view origin);

/// An origin as a part of a sentence: "from UDP 0.0.0.0:9750", "imported from swings.csv".
[[nodiscard]] std::string origin_words(std::string_view origin);

}  // namespace footing
