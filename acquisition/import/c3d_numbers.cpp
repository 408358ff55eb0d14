#include "acquisition/import/c3d_numbers.h"

#include <bit>
#include <cmath>
#include <limits>

namespace footing {

namespace {

/// VAX F_floating (VAX Architecture Reference Manual): sign, 8 bits of exponent in excess of 128, and 23 bits
/// of a fraction between 1/2 and 1 whose first bit is not stored.
float vax_real(std::uint32_t bits) {
    const bool negative = (bits >> 31U) != 0;
    const int exponent = static_cast<int>((bits >> 23U) & 0xFFU);
    if (exponent == 0) return negative ? std::numeric_limits<float>::quiet_NaN() : 0.0F;
    const auto fraction = static_cast<float>((bits & 0x7FFFFFU) | 0x800000U);
    const float magnitude = std::ldexp(fraction, exponent - 128 - 24);
    return negative ? -magnitude : magnitude;
}

}  // namespace

std::uint8_t C3dNumbers::byte(std::size_t offset) const {
    return offset < bytes_.size() ? std::to_integer<std::uint8_t>(bytes_[offset]) : std::uint8_t{0};
}

std::uint16_t C3dNumbers::word(std::size_t offset) const {
    const unsigned first = byte(offset);
    const unsigned second = byte(offset + 1);
    return static_cast<std::uint16_t>(order_ == C3dByteOrder::mips ? first << 8U | second
                                                                   : second << 8U | first);
}

std::int16_t C3dNumbers::signed_word(std::size_t offset) const {
    return static_cast<std::int16_t>(word(offset));
}

float C3dNumbers::real(std::size_t offset) const {
    const std::uint32_t first = word(offset);
    const std::uint32_t second = word(offset + 2);
    // The word with sign and exponent comes first on a VAX and where the high byte comes first.
    if (order_ == C3dByteOrder::dec) return vax_real(first << 16U | second);
    return std::bit_cast<float>(order_ == C3dByteOrder::mips ? first << 16U | second : second << 16U | first);
}

}  // namespace footing
