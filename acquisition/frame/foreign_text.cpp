#include "acquisition/frame/foreign_text.h"

#include <array>
#include <cstdint>

#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

bool is_utf8(std::string_view text) {
    while (!text.empty()) {
        const std::size_t bytes = first_character(text).bytes;
        if (bytes == 0) return false;
        text.remove_prefix(bytes);
    }
    return true;
}

// Bytes 0x80 to 0x9F of code page 1252; those it leaves out stay control characters.
constexpr std::array<std::uint32_t, 32> second_controls{
    0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

/// In UTF-8; all these code points need one to three bytes (RFC 3629, section 3).
void append(std::string& text, std::uint32_t code_point) {
    if (code_point < 0x80) {
        text += static_cast<char>(code_point);
    } else if (code_point < 0x800) {
        text += static_cast<char>(0xC0 | (code_point >> 6));
        text += static_cast<char>(0x80 | (code_point & 0x3F));
    } else {
        text += static_cast<char>(0xE0 | (code_point >> 12));
        text += static_cast<char>(0x80 | ((code_point >> 6) & 0x3F));
        text += static_cast<char>(0x80 | (code_point & 0x3F));
    }
}

}  // namespace

std::string as_utf8(std::string_view text) {
    if (is_utf8(text)) return std::string(text);
    std::string converted;
    converted.reserve(text.size() + text.size() / 8);
    for (const char letter : text) {
        const auto byte = static_cast<std::uint8_t>(letter);
        append(converted, byte >= 0x80 && byte <= 0x9F ? second_controls[byte - 0x80U] : byte);
    }
    return converted;
}

}  // namespace footing
