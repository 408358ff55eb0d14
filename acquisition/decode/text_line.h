#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace footing {

/// Text mode, for simple boards on a serial line. One line a frame: counter,microseconds,c1,...,cn and
/// optionally '*' and the checksum of NMEA 0183 (XOR of all bytes before the '*', two hexadecimal digits). LF
/// or CR LF ends a line; a '#' starts a comment line.

/// Longest line that is read, without its end.
inline constexpr std::size_t most_text_line_bytes = 4096;

enum class TextChecksum { none, nmea };

/// One line with its LF.
[[nodiscard]] std::string encode_text_line(std::uint32_t counter, std::uint32_t microseconds,
                                           std::span<const std::int32_t> counts, TextChecksum checksum);

/// XOR of all bytes.
[[nodiscard]] std::uint8_t nmea_checksum(std::string_view bytes);

struct TextFrame {
    std::uint32_t counter = 0;
    std::uint64_t microseconds = 0;  ///< as written; a board's own clock usually wraps at 2^32
    std::size_t count = 0;           ///< values written to `into`
};

/// Reads one line (without its end) into `into`; nothing when it is not a whole, correct line or `into` is
/// too small.
[[nodiscard]] std::optional<TextFrame> decode_text_line(std::string_view line, std::span<std::int32_t> into);

}  // namespace footing
