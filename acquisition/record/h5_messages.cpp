#include "acquisition/record/h5_messages.h"

#include <algorithm>
#include <deque>

namespace footing::h5 {

namespace {

constexpr std::size_t padded(std::size_t bytes) {
    return (bytes + 7) / 8 * 8;
}

constexpr std::uint64_t most_attribute_elements = 65536;
constexpr std::size_t most_heap_bytes = std::size_t{1} << 20;

/// The string that a variable-length element points to (specification, III.E, global heap).
std::string read_heap_text(const ReadOnlyFile& file, ByteCursor element) {
    const auto length = element.take<std::uint32_t>();
    const auto address = element.take<std::uint64_t>();
    const auto index = element.take<std::uint32_t>();
    if (length == 0) return {};
    const std::vector<std::byte> head = load(file, address, 16);
    ByteCursor head_cursor(head);
    expect_signature(head_cursor, "GCOL");
    head_cursor.skip(4);
    const auto size = head_cursor.take<std::uint64_t>();
    if (size < 16 || size > most_heap_bytes) throw Malformed("a global heap has an impossible size");
    const std::vector<std::byte> heap = load(file, address, static_cast<std::size_t>(size));
    ByteCursor cursor(heap);
    cursor.skip(16);
    while (cursor.left() >= 16) {
        const auto found = cursor.take<std::uint16_t>();
        cursor.skip(6);
        const auto object_bytes = cursor.take<std::uint64_t>();
        if (found == 0) break;
        if (object_bytes > cursor.left()) throw Malformed("a global heap object is too long");
        const std::span<const std::byte> object =
            cursor.take_bytes(std::min(padded(static_cast<std::size_t>(object_bytes)), cursor.left()));
        if (found == index) return text_of(object.first(std::min<std::size_t>(length, object.size())));
    }
    throw Malformed("a text is missing from the global heap");
}

StoredType number_type(ElementClass element_class, std::uint32_t size) {
    return {{element_class, size}, false};
}

}  // namespace

std::string text_of(std::span<const std::byte> bytes) {
    const auto end = std::find(bytes.begin(), bytes.end(), std::byte{0});
    return {reinterpret_cast<const char*>(bytes.data()), static_cast<std::size_t>(end - bytes.begin())};
}

std::vector<Message> read_object_header(const ReadOnlyFile& file, std::uint64_t address) {
    const std::vector<std::byte> head = load(file, address, 16);
    ByteCursor cursor(head);
    if (cursor.take<std::uint8_t>() != 1) {
        throw Malformed(
            "it is laid out in a newer version of HDF5's file format; "
            "h5repack --low=0 --high=0 OLD NEW rewrites it");
    }
    cursor.skip(1);
    const auto message_count = cursor.take<std::uint16_t>();
    cursor.skip(4);
    std::deque<std::pair<std::uint64_t, std::uint64_t>> blocks{{address + 16, cursor.take<std::uint32_t>()}};
    std::vector<Message> messages;
    std::size_t total_bytes = 0;
    std::size_t seen = 0;
    while (!blocks.empty()) {
        const auto [begin, length] = blocks.front();
        blocks.pop_front();
        total_bytes += static_cast<std::size_t>(std::min<std::uint64_t>(length, most_header_bytes + 1));
        if (total_bytes > most_header_bytes) throw Malformed("an object's header is too long");
        const std::vector<std::byte> block = load(file, begin, static_cast<std::size_t>(length));
        ByteCursor walk(block);
        while (walk.left() >= 8 && seen < message_count) {
            ++seen;
            const auto type = static_cast<MessageType>(walk.take<std::uint16_t>());
            const auto size = walk.take<std::uint16_t>();
            const auto flags = walk.take<std::uint8_t>();
            walk.skip(3);
            const std::span<const std::byte> bytes = walk.take_bytes(size);
            if (type == MessageType::continuation) {
                ByteCursor next(bytes);
                const auto next_begin = next.take<std::uint64_t>();
                blocks.emplace_back(next_begin, next.take<std::uint64_t>());
            } else if (type != MessageType::nil) {
                messages.push_back({type, flags, {bytes.begin(), bytes.end()}});
            }
        }
    }
    return messages;
}

std::vector<std::uint64_t> read_dataspace(std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    const auto version = cursor.take<std::uint8_t>();
    const auto rank = cursor.take<std::uint8_t>();
    const auto flags = cursor.take<std::uint8_t>();
    if (version == 1) {
        cursor.skip(5);
    } else if (version == 2) {
        if (cursor.take<std::uint8_t>() > 1) throw Malformed("a dataspace is null");
    } else {
        throw Malformed("a dataspace has an unknown version");
    }
    if (rank > 3 || (flags & 2U) != 0) throw Malformed("a dataspace has too many dimensions");
    std::vector<std::uint64_t> dimensions(rank);
    for (std::uint64_t& dimension : dimensions) dimension = cursor.take<std::uint64_t>();
    return dimensions;
}

StoredType read_datatype(std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    const unsigned class_and_version = cursor.take<std::uint8_t>();
    const unsigned bits = cursor.take<std::uint8_t>();
    cursor.skip(2);
    const auto size = cursor.take<std::uint32_t>();
    if (size == 0 || size > most_header_bytes) throw Malformed("a datatype has an impossible size");
    switch (class_and_version & 0x0FU) {
        case 0: {  // fixed point
            const bool plain = (bits & 1U) == 0 && cursor.take<std::uint16_t>() == 0 &&
                               cursor.take<std::uint16_t>() == 8 * size;
            if (!plain) break;
            return number_type(
                (bits & 8U) != 0 ? ElementClass::signed_integer : ElementClass::unsigned_integer, size);
        }
        case 1: {  // floating point: IEEE binary64, little-endian, is all that is used
            const bool plain = size == 8 && (bits & 0x41U) == 0 && cursor.take<std::uint16_t>() == 0 &&
                               cursor.take<std::uint16_t>() == 64 && cursor.take<std::uint8_t>() == 52 &&
                               cursor.take<std::uint8_t>() == 11 && cursor.take<std::uint8_t>() == 0 &&
                               cursor.take<std::uint8_t>() == 52 && cursor.take<std::uint32_t>() == 1023;
            if (!plain) break;
            return number_type(ElementClass::floating, size);
        }
        case 3:
            return {{ElementClass::text, size}, false};
        case 9:
            if ((bits & 0x0FU) == 1 && size == 16) return {{ElementClass::text, size}, true};
            break;
        default:
            break;
    }
    return {{ElementClass::other, size}, false};
}

std::vector<Filter> read_filters(std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    const auto version = cursor.take<std::uint8_t>();
    const auto count = cursor.take<std::uint8_t>();
    if (version == 1) {
        cursor.skip(6);
    } else if (version != 2) {
        throw Malformed("a list of filters has an unknown version");
    }
    std::vector<Filter> filters;
    for (unsigned i = 0; i < count; ++i) {
        const auto id = cursor.take<std::uint16_t>();
        if (id != 1 && id != 2) {
            throw Malformed("it uses filter number " + std::to_string(id) +
                            "; only deflate (1) and shuffle (2) are allowed");
        }
        const std::size_t name_bytes = version == 1 ? cursor.take<std::uint16_t>() : 0;
        cursor.skip(2);
        const std::size_t value_count = cursor.take<std::uint16_t>();
        cursor.skip(padded(name_bytes) + 4 * value_count + (version == 1 ? 4 * (value_count % 2) : 0));
        filters.push_back(id == 1 ? Filter::deflate : Filter::shuffle);
    }
    if (filters.size() > 2 || (filters.size() == 2 && filters[0] == filters[1])) {
        throw Malformed("it is filtered more than once in the same way");
    }
    return filters;
}

StoredLayout read_layout(std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    if (cursor.take<std::uint8_t>() != 3) {
        throw Malformed(
            "its storage is laid out in another version of HDF5's file format; "
            "h5repack --low=0 --high=0 OLD NEW rewrites it");
    }
    StoredLayout layout;
    switch (cursor.take<std::uint8_t>()) {
        case 0: {
            const auto size = cursor.take<std::uint16_t>();
            const std::span<const std::byte> values = cursor.take_bytes(size);
            layout.compact.assign(values.begin(), values.end());
            break;
        }
        case 1:
            layout.address = cursor.take<std::uint64_t>();
            layout.contiguous_bytes = cursor.take<std::uint64_t>();
            break;
        case 2: {
            const unsigned rank_and_one = cursor.take<std::uint8_t>();
            if (rank_and_one < 2 || rank_and_one > 4) throw Malformed("its chunks have an impossible rank");
            layout.address = cursor.take<std::uint64_t>();
            for (unsigned i = 0; i + 1 < rank_and_one; ++i) {
                layout.chunk_dimensions.push_back(cursor.take<std::uint32_t>());
                if (layout.chunk_dimensions.back() == 0) throw Malformed("its chunks are empty");
            }
            break;
        }
        default:
            throw Malformed("its storage is of an unknown kind");
    }
    return layout;
}

std::pair<std::string, Attribute> read_attribute(const ReadOnlyFile& file, std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    const auto version = cursor.take<std::uint8_t>();
    const auto flags = cursor.take<std::uint8_t>();
    if (version < 1 || version > 3) throw Malformed("an attribute has an unknown version");
    const std::size_t name_bytes = cursor.take<std::uint16_t>();
    const std::size_t type_bytes = cursor.take<std::uint16_t>();
    const std::size_t space_bytes = cursor.take<std::uint16_t>();
    if (version == 3) cursor.skip(1);
    const auto stored = [&](std::size_t length) { return version == 1 ? padded(length) : length; };
    const std::string name = text_of(cursor.take_bytes(stored(name_bytes)));
    const std::span<const std::byte> type_part = cursor.take_bytes(stored(type_bytes));
    const std::span<const std::byte> space_part = cursor.take_bytes(stored(space_bytes));
    Attribute attribute;
    if (version > 1 && flags != 0) return {name, attribute};  // a shared type: of no use here
    const StoredType type = read_datatype(type_part);
    attribute.dimensions = read_dataspace(space_part);
    std::uint64_t elements = 1;
    for (const std::uint64_t dimension : attribute.dimensions) {
        if (dimension > most_attribute_elements) throw Malformed("an attribute is too large");
        elements *= dimension;
    }
    if (type.type.element_class == ElementClass::other || elements * type.type.bytes > cursor.left()) {
        return {name, attribute};
    }
    attribute.type = type.type;
    if (type.variable_length) {
        if (elements != 1) return {name, Attribute{}};
        const std::string text = read_heap_text(file, cursor);
        const auto* begin = reinterpret_cast<const std::byte*>(text.data());
        attribute.value.assign(begin, begin + text.size());
    } else {
        const std::span<const std::byte> value =
            cursor.take_bytes(static_cast<std::size_t>(elements * type.type.bytes));
        attribute.value.assign(value.begin(), value.end());
    }
    return {name, attribute};
}

std::pair<std::string, std::uint64_t> read_link(std::span<const std::byte> bytes) {
    ByteCursor cursor(bytes);
    if (cursor.take<std::uint8_t>() != 1) throw Malformed("a link has an unknown version");
    const unsigned flags = cursor.take<std::uint8_t>();
    const unsigned link_type = (flags & 8U) != 0 ? cursor.take<std::uint8_t>() : 0U;
    if ((flags & 4U) != 0) cursor.skip(8);
    if ((flags & 16U) != 0) cursor.skip(1);
    std::uint64_t name_bytes = 0;
    switch (flags & 3U) {
        case 0:
            name_bytes = cursor.take<std::uint8_t>();
            break;
        case 1:
            name_bytes = cursor.take<std::uint16_t>();
            break;
        case 2:
            name_bytes = cursor.take<std::uint32_t>();
            break;
        default:
            name_bytes = cursor.take<std::uint64_t>();
    }
    if (name_bytes > cursor.left()) throw Malformed("a link's name is too long");
    const std::string name = text_of(cursor.take_bytes(static_cast<std::size_t>(name_bytes)));
    if (link_type == 1) throw Malformed("holds a soft link (" + name + "), which a recording never does");
    if (link_type != 0)
        throw Malformed("holds an external link (" + name + "), which a recording never does");
    return {name, cursor.take<std::uint64_t>()};
}

}  // namespace footing::h5
