#include "acquisition/decode/crc32c.h"

#include <isa-l/crc.h>

#include <algorithm>

namespace footing {

std::uint32_t crc32c(std::span<const std::byte> bytes) {
    // The library takes its length as an int and, like the standard, starts and ends with the complement.
    constexpr std::size_t most_at_once = std::size_t{1} << 30U;
    std::uint32_t state = 0xFFFFFFFFU;
    while (!bytes.empty()) {
        const std::size_t length = std::min(bytes.size(), most_at_once);
        // ISA-L does not write through this pointer; its prototype merely lacks the const.
        auto* data = const_cast<unsigned char*>(reinterpret_cast<const unsigned char*>(bytes.data()));
        state = crc32_iscsi(data, static_cast<int>(length), state);
        bytes = bytes.subspan(length);
    }
    return state ^ 0xFFFFFFFFU;
}

}  // namespace footing
