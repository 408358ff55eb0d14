#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// Consistent overhead byte stuffing (Cheshire & Baker, IEEE/ACM Transactions on Networking 7:159, 1999):
/// rewrites bytes so that no zero is among them; a zero can then end each packet of a stream. Costs at most
/// one byte in 254, and one more.

/// Longest encoding of `length` bytes, without the delimiter.
[[nodiscard]] constexpr std::size_t cobs_most_bytes(std::size_t length) {
    return length + (length + 253) / 254 + 1;
}

/// The encoding of the bytes, without the zero after it.
[[nodiscard]] std::vector<std::byte> cobs_encode(std::span<const std::byte> bytes);

/// Decodes one encoded packet (without its delimiter) into `into` and returns how many bytes it gave; nothing
/// when the bytes are no encoding or `into` is too small. `into` may start where `encoded` starts: it decodes
/// in place. Accepts both endings that encoders use after a run of exactly 254 bytes.
[[nodiscard]] std::optional<std::size_t> cobs_decode(std::span<const std::byte> encoded,
                                                     std::span<std::byte> into);

}  // namespace footing
