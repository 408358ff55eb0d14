#include "analysis/report/text_safety.h"

#include <cstdint>

namespace footing {

namespace {

bool runs_to_the_left(std::uint32_t c) {
    return (c >= 0x0590U && c <= 0x08FFU) || (c >= 0xFB1DU && c <= 0xFDFFU) ||
           (c >= 0xFE70U && c <= 0xFEFEU) || (c >= 0x10800U && c <= 0x10FFFU) ||
           (c >= 0x1E800U && c <= 0x1EFFFU);
}

}  // namespace

std::string clean_parts(std::string_view text) {
    std::string clean = clean_text(text);
    bool mixed = false;
    for (std::string_view rest = clean; !rest.empty() && !mixed;) {
        const Utf8Character character = first_character(rest);
        rest.remove_prefix(character.bytes);
        mixed = runs_to_the_left(character.code_point);
    }
    if (!mixed) return clean;
    constexpr std::string_view left_to_right_mark = "\xE2\x80\x8E";  // U+200E
    constexpr std::string_view between = " · ";
    for (std::size_t at = clean.find(between); at != std::string::npos;) {
        clean.insert(at, left_to_right_mark);
        at = clean.find(between, at + left_to_right_mark.size() + between.size());
    }
    return clean;
}

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char letter : clean_text(text)) {
        switch (letter) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            case '\'':
                safe += "&#39;";
                break;
            default:
                safe += letter;
        }
    }
    return safe;
}

std::string csv_text(std::string_view text) {
    // Looked at before cleaning: a tab at the front would otherwise be gone, but the spreadsheet's danger
    // with it.
    const bool dangerous =
        !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
    std::string clean = clean_text(text);
    const std::size_t first = clean.find_first_not_of(' ');
    const bool hidden =
        first != std::string::npos && std::string_view("=+-@").find(clean[first]) != std::string_view::npos;
    if (dangerous || hidden) clean.insert(0, "'");
    if (clean.find_first_of(",\";") == std::string::npos && clean.find(' ') == std::string::npos)
        return clean;
    std::string quoted = "\"";
    for (const char letter : clean) {
        if (letter == '"') quoted += '"';
        quoted += letter;
    }
    return quoted + "\"";
}

}  // namespace footing
