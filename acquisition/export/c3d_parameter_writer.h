#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace footing {

/// Puts a 16-bit word or a real number into bytes at an offset, little-endian.
void put_c3d_word(std::string& bytes, std::size_t offset, std::uint16_t value);
void put_c3d_real(std::string& bytes, std::size_t offset, float value);

/// Writes the parameter section of a C3D file (c3d.org, "The parameter section"), group after group. Texts
/// are cut to 127 characters; no array may be longer than 255 along a dimension, as its length is a byte.
class C3dParameterWriter {
  public:
    C3dParameterWriter();

    void begin_group(std::string_view name);
    void word(std::string_view name, int value);
    void words(std::string_view name, const std::vector<int>& values,
               const std::vector<std::size_t>& dimensions);
    void real(std::string_view name, double value);
    void reals(std::string_view name, const std::vector<double>& values,
               const std::vector<std::size_t>& dimensions);
    void text(std::string_view name, std::string_view value);
    /// All filled up with blanks to the length of the longest.
    void texts(std::string_view name, const std::vector<std::string>& values);

    /// The section with its end mark; the count of blocks in its head is left 0.
    [[nodiscard]] std::string section() const;

  private:
    void parameter(std::string_view name, int type, const std::vector<std::size_t>& dimensions,
                   std::string_view elements);

    std::string bytes_;
    int group_ = 0;
};

}  // namespace footing
