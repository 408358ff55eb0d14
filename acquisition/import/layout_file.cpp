#include "acquisition/import/layout_file.h"

#include <nlohmann/json.hpp>

#include "acquisition/decode/description.h"
#include "acquisition/import/whole_file.h"

namespace footing {

Result<DeviceDescription> parse_layout(std::string_view json, const std::string& place) {
    auto document = nlohmann::json::parse(json, nullptr, false);
    if (!document.is_object()) return parse_description(json, place);  // its problem says what is wrong
    const bool rate_known = document.contains("rate_hz");
    if (!rate_known) document["rate_hz"] = 1.0;
    if (!document.contains("serial")) document["serial"] = 0;
    auto layout =
        parse_description(document.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace), place);
    if (layout && !rate_known) layout.value().rate_hz = 0.0;
    return layout;
}

Result<DeviceDescription> read_layout_file(const std::filesystem::path& path) {
    constexpr std::uint64_t most_layout_bytes = 1 << 20;
    const auto text = read_whole_file(path, most_layout_bytes);
    if (!text) return text.problem();
    return parse_layout(text.value(), path.string());
}

}  // namespace footing
