#include "acquisition/export/c3d_parameter_writer.h"

#include <algorithm>
#include <bit>

#include "acquisition/import/c3d_format.h"

namespace footing {

namespace {

constexpr std::size_t longest_text = 127;

void append_word(std::string& bytes, std::uint16_t value) {
    bytes.append(2, '\0');
    put_c3d_word(bytes, bytes.size() - 2, value);
}

/// The name's length and the group's number: what each record begins with.
void append_record_head(std::string& bytes, std::string_view name, int group) {
    bytes.push_back(static_cast<char>(name.size()));
    bytes.push_back(static_cast<char>(group));
    bytes.append(name);
}

}  // namespace

void put_c3d_word(std::string& bytes, std::size_t offset, std::uint16_t value) {
    bytes[offset] = static_cast<char>(value & 0xFFU);
    bytes[offset + 1] = static_cast<char>(value >> 8U);
}

void put_c3d_real(std::string& bytes, std::size_t offset, float value) {
    const auto bits = std::bit_cast<std::uint32_t>(value);
    for (std::size_t i = 0; i < sizeof(bits); ++i) {
        bytes[offset + i] = static_cast<char>((bits >> (8U * i)) & 0xFFU);
    }
}

C3dParameterWriter::C3dParameterWriter() : bytes_(c3d::first_record_offset, '\0') {
    bytes_[0] = 1;
    bytes_[1] = static_cast<char>(c3d::key);
    bytes_[c3d::processor_offset] = static_cast<char>(c3d::processor_intel);
}

void C3dParameterWriter::begin_group(std::string_view name) {
    ++group_;
    append_record_head(bytes_, name, -group_);
    // To the next record: this word and an empty description behind it.
    append_word(bytes_, 3);
    bytes_.push_back('\0');
}

void C3dParameterWriter::parameter(std::string_view name, int type,
                                   const std::vector<std::size_t>& dimensions, std::string_view elements) {
    append_record_head(bytes_, name, group_);
    // This word, the type, the count of dimensions, the dimensions, the elements, and an empty description.
    append_word(bytes_, static_cast<std::uint16_t>(2 + 1 + 1 + dimensions.size() + elements.size() + 1));
    bytes_.push_back(static_cast<char>(type));
    bytes_.push_back(static_cast<char>(dimensions.size()));
    for (const std::size_t length : dimensions) bytes_.push_back(static_cast<char>(length));
    bytes_.append(elements);
    bytes_.push_back('\0');
}

void C3dParameterWriter::word(std::string_view name, int value) {
    words(name, {value}, {});
}

void C3dParameterWriter::words(std::string_view name, const std::vector<int>& values,
                               const std::vector<std::size_t>& dimensions) {
    std::string elements;
    for (const int value : values) append_word(elements, static_cast<std::uint16_t>(value));
    parameter(name, static_cast<int>(c3d::ElementType::word), dimensions, elements);
}

void C3dParameterWriter::real(std::string_view name, double value) {
    reals(name, {value}, {});
}

void C3dParameterWriter::reals(std::string_view name, const std::vector<double>& values,
                               const std::vector<std::size_t>& dimensions) {
    std::string elements(values.size() * sizeof(float), '\0');
    for (std::size_t i = 0; i < values.size(); ++i) {
        put_c3d_real(elements, i * sizeof(float), static_cast<float>(values[i]));
    }
    parameter(name, static_cast<int>(c3d::ElementType::real), dimensions, elements);
}

void C3dParameterWriter::text(std::string_view name, std::string_view value) {
    const std::string_view cut = value.substr(0, longest_text);
    parameter(name, static_cast<int>(c3d::ElementType::character), {cut.size()}, cut);
}

void C3dParameterWriter::texts(std::string_view name, const std::vector<std::string>& values) {
    std::size_t longest = 1;
    for (const std::string& value : values) longest = std::max(longest, value.size());
    longest = std::min(longest, longest_text);
    std::string elements;
    for (std::string value : values) {
        value.resize(longest, ' ');
        elements += value;
    }
    parameter(name, static_cast<int>(c3d::ElementType::character), {longest, values.size()}, elements);
}

std::string C3dParameterWriter::section() const {
    return bytes_ + std::string(2, '\0');
}

}  // namespace footing
