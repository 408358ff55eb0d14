#include "analysis/report/text_safety.h"

#include <cstdint>

namespace footing {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

/// Length of the valid UTF-8 sequence at the front (RFC 3629, section 4), 0 when there is none; its code
/// point too.
std::size_t sequence_at(std::string_view text, std::uint32_t& code_point) {
    const auto byte = [&](std::size_t i) {
        return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
    };
    const std::uint32_t first = byte(0);
    std::size_t length = 0;
    std::uint32_t least = 0;
    if (first < 0x80U) {
        code_point = first;
        return 1;
    }
    if ((first & 0xE0U) == 0xC0U) {
        length = 2, least = 0x80U, code_point = first & 0x1FU;
    } else if ((first & 0xF0U) == 0xE0U) {
        length = 3, least = 0x800U, code_point = first & 0x0FU;
    } else if ((first & 0xF8U) == 0xF0U) {
        length = 4, least = 0x10000U, code_point = first & 0x07U;
    } else {
        return 0;
    }
    if (text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
        code_point = (code_point << 6U) | (byte(i) & 0x3FU);
    }
    const bool surrogate = code_point >= 0xD800U && code_point <= 0xDFFFU;
    return code_point < least || code_point > 0x10FFFFU || surrogate ? 0 : length;
}

bool turns_direction(std::uint32_t c) {
    return (c >= 0x202AU && c <= 0x202EU) || (c >= 0x2066U && c <= 0x2069U) || c == 0x200EU || c == 0x200FU;
}

bool runs_to_the_left(std::uint32_t c) {
    return (c >= 0x0590U && c <= 0x08FFU) || (c >= 0xFB1DU && c <= 0xFDFFU) ||
           (c >= 0xFE70U && c <= 0xFEFEU) || (c >= 0x10800U && c <= 0x10FFFU) ||
           (c >= 0x1E800U && c <= 0x1EFFFU);
}

bool is_control(std::uint32_t c) {
    return c < 0x20U || (c >= 0x7FU && c < 0xA0U) || c == 0x2028U || c == 0x2029U || (c & 0xFFFEU) == 0xFFFEU;
}

}  // namespace

std::string clean_text(std::string_view text) {
    return clean_text(text, text.size());
}

std::string clean_text(std::string_view text, std::size_t most) {
    std::string clean;
    std::size_t characters = 0;
    std::size_t before_last = 0;  // where the last character that fits begins
    while (!text.empty()) {
        std::uint32_t code_point = 0;
        const std::size_t length = sequence_at(text, code_point);
        std::string_view piece = length == 0 ? replacement : text.substr(0, length);
        text.remove_prefix(length == 0 ? 1 : length);
        if (length != 0 && turns_direction(code_point)) continue;
        if (length != 0 && is_control(code_point)) piece = " ";
        if (characters == most) {
            clean.resize(before_last);
            return clean + "…";
        }
        before_last = clean.size();
        clean += piece;
        ++characters;
    }
    return clean;
}

std::string clean_parts(std::string_view text) {
    std::string clean = clean_text(text);
    bool mixed = false;
    for (std::string_view rest = clean; !rest.empty() && !mixed;) {
        std::uint32_t code_point = 0;
        rest.remove_prefix(sequence_at(rest, code_point));
        mixed = runs_to_the_left(code_point);
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
