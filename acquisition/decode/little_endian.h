#pragma once

#include <bit>
#include <cstddef>
#include <cstring>
#include <span>
#include <type_traits>

namespace footing {

static_assert(std::endian::native == std::endian::little,
              "the wire and the journal are little-endian, as is every machine so far");

/// The number at `offset`; the caller has checked that the bytes are there.
template <typename Number>
requires std::is_arithmetic_v<Number>
[[nodiscard]] Number read_little_endian(std::span<const std::byte> bytes, std::size_t offset) {
    Number number{};
    std::memcpy(&number, bytes.data() + offset, sizeof number);
    return number;
}

template <typename Number>
requires std::is_arithmetic_v<Number>
void write_little_endian(std::span<std::byte> bytes, std::size_t offset, Number number) {
    std::memcpy(bytes.data() + offset, &number, sizeof number);
}

}  // namespace footing
