#include "acquisition/record/recording_origin.h"

namespace footing {

namespace {

constexpr std::string_view imported_from = "imported from ";

}  // namespace

std::string imported_origin(const std::filesystem::path& file) {
    return std::string(imported_from) + file.filename().string();
}

bool is_imported(std::string_view origin) {
    return origin.starts_with(imported_from);
}

std::string origin_words(std::string_view origin) {
    return (is_imported(origin) ? "" : "from ") + std::string(origin);
}

}  // namespace footing
