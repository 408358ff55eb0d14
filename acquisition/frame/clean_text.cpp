#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

bool turns_direction(std::uint32_t c) {
    return (c >= 0x202AU && c <= 0x202EU) || (c >= 0x2066U && c <= 0x2069U) || c == 0x200EU || c == 0x200FU;
}

bool is_control(std::uint32_t c) {
    return c < 0x20U || (c >= 0x7FU && c < 0xA0U) || c == 0x2028U || c == 0x2029U || (c & 0xFFFEU) == 0xFFFEU;
}

}  // namespace

Utf8Character first_character(std::string_view text) {
    const auto byte = [&](std::size_t i) {
        return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i]));
    };
    const std::uint32_t first = byte(0);
    Utf8Character found;
    std::uint32_t least = 0;
    if (first < 0x80U) return {1, first};
    if ((first & 0xE0U) == 0xC0U) {
        found = {2, first & 0x1FU}, least = 0x80U;
    } else if ((first & 0xF0U) == 0xE0U) {
        found = {3, first & 0x0FU}, least = 0x800U;
    } else if ((first & 0xF8U) == 0xF0U) {
        found = {4, first & 0x07U}, least = 0x10000U;
    } else {
        return {};
    }
    if (text.size() < found.bytes) return {};
    for (std::size_t i = 1; i < found.bytes; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return {};
        found.code_point = (found.code_point << 6U) | (byte(i) & 0x3FU);
    }
    const bool surrogate = found.code_point >= 0xD800U && found.code_point <= 0xDFFFU;
    if (found.code_point < least || found.code_point > 0x10FFFFU || surrogate) return {};
    return found;
}

std::string clean_text(std::string_view text) {
    return clean_text(text, text.size());
}

std::string clean_text(std::string_view text, std::size_t most) {
    std::string clean;
    std::size_t characters = 0;
    std::size_t before_last = 0;  // where the last character that fits begins
    while (!text.empty()) {
        const auto [length, code_point] = first_character(text);
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

}  // namespace footing
