#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "acquisition/record/h5_bytes.h"
#include "acquisition/record/h5_structure.h"

namespace footing::h5 {

/// The header messages of the specification (section IV.A.2) that a recording may hold. Each reader throws
/// Malformed.
enum class MessageType : std::uint16_t {
    nil = 0x00,
    dataspace = 0x01,
    link_info = 0x02,
    datatype = 0x03,
    link = 0x06,
    external_files = 0x07,
    layout = 0x08,
    filters = 0x0B,
    attribute = 0x0C,
    continuation = 0x10,
    symbol_table = 0x11,
    attribute_info = 0x15,
};

struct Message {
    MessageType type = MessageType::nil;
    std::uint8_t flags = 0;
    std::vector<std::byte> bytes;
};

/// All messages of a version 1 object header, continuations followed.
[[nodiscard]] std::vector<Message> read_object_header(const ReadOnlyFile& file, std::uint64_t address);

[[nodiscard]] std::vector<std::uint64_t> read_dataspace(std::span<const std::byte> bytes);

struct StoredType {
    ElementType type;
    bool variable_length = false;  ///< a string in the global heap
};
[[nodiscard]] StoredType read_datatype(std::span<const std::byte> bytes);

[[nodiscard]] std::vector<Filter> read_filters(std::span<const std::byte> bytes);

struct StoredLayout {
    std::vector<std::byte> compact;
    std::uint64_t address = no_address;
    std::uint64_t contiguous_bytes = 0;
    std::vector<std::uint32_t> chunk_dimensions;  ///< without the element's size
};
[[nodiscard]] StoredLayout read_layout(std::span<const std::byte> bytes);

[[nodiscard]] std::pair<std::string, Attribute> read_attribute(const ReadOnlyFile& file,
                                                               std::span<const std::byte> bytes);

/// A hard link: name and address of an object header. Soft and external links are refused.
[[nodiscard]] std::pair<std::string, std::uint64_t> read_link(std::span<const std::byte> bytes);

/// Bytes before the first zero.
[[nodiscard]] std::string text_of(std::span<const std::byte> bytes);

}  // namespace footing::h5
