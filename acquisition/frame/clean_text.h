#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace footing {

/// Valid UTF-8 on one line, fit for a terminal, a screen or a file, whatever people, devices and files hold:
/// what is not UTF-8 becomes U+FFFD, control characters (C0, DEL, C1, line ends) become a space, and
/// characters that turn the direction of the text around them (Unicode TR 9, explicit formatting) are left
/// out.
[[nodiscard]] std::string clean_text(std::string_view text);

/// clean_text(), cut to `most` characters with "…" at the end.
[[nodiscard]] std::string clean_text(std::string_view text, std::size_t most);

/// One character in UTF-8.
struct Utf8Character {
    std::size_t bytes = 0;  ///< 0: what stands there is no UTF-8
    std::uint32_t code_point = 0;
};

/// The one at the front of `text`, which is not empty (RFC 3629, section 4).
[[nodiscard]] Utf8Character first_character(std::string_view text);

}  // namespace footing
