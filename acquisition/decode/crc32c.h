#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace footing {

/// CRC-32C (Castagnoli; RFC 3720, appendix B.4), computed by ISA-L. "123456789" gives 0xE3069283.
[[nodiscard]] std::uint32_t crc32c(std::span<const std::byte> bytes);

}  // namespace footing
