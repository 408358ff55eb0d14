#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace footing {

/// On which kind of processor a C3D file was written; it decides how its numbers lie in memory.
enum class C3dByteOrder {
    intel,  ///< low byte first, IEEE 754 reals
    dec,    ///< low byte first, VAX F reals
    mips,   ///< high byte first, IEEE 754 reals
};

/// Numbers in bytes, bounds-checked: what lies beyond the end reads as zero.
class C3dNumbers {
  public:
    C3dNumbers(std::span<const std::byte> bytes, C3dByteOrder order) : bytes_(bytes), order_(order) {}

    [[nodiscard]] std::span<const std::byte> bytes() const { return bytes_; }
    [[nodiscard]] C3dByteOrder order() const { return order_; }

    [[nodiscard]] std::uint8_t byte(std::size_t offset) const;
    [[nodiscard]] std::uint16_t word(std::size_t offset) const;
    [[nodiscard]] std::int16_t signed_word(std::size_t offset) const;
    /// A VAX F value of exponent 0 is 0, or NaN with its sign set (a reserved operand).
    [[nodiscard]] float real(std::size_t offset) const;

  private:
    std::span<const std::byte> bytes_;
    C3dByteOrder order_;
};

}  // namespace footing
