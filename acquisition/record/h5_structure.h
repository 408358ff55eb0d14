#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/record/read_only_file.h"

/// The skeleton of an HDF5 file, read with every length and address checked against the file before it is
/// used.
///
/// Why not the HDF5 library: it trusts the file. A recording from a stranger must not be able to crash the
/// program (R22), and the library's parser has been crashed many times. This one knows only what the earliest
/// file format needs (HDF5 File Format Specification, version 3.0, sections II to IV): superblock 0 or 1,
/// object headers 1, groups as symbol tables or compact links, fixed-point, IEEE and string types, storage
/// compact, contiguous, or chunked under a version 1 B-tree, filters deflate and shuffle. All else is refused
/// with a sentence.
namespace footing::h5 {

enum class ElementClass { unsigned_integer, signed_integer, floating, text, other };

struct ElementType {
    ElementClass element_class = ElementClass::other;
    std::uint32_t bytes = 0;
};

struct Attribute {
    ElementType type;
    std::vector<std::uint64_t> dimensions;
    std::vector<std::byte> value;  ///< as stored; text without its padding; empty when the type is other
};

/// One stored chunk: the place of its first element, and its bytes in the file.
struct Chunk {
    std::array<std::uint64_t, 3> origin{};
    std::uint64_t address = 0;
    std::uint32_t stored_bytes = 0;
    std::uint32_t skipped_filters = 0;  ///< bit i: filter i was not applied
};

enum class Filter { deflate, shuffle };

struct Dataset {
    ElementType type;
    std::vector<std::uint64_t> dimensions;
    std::map<std::string, Attribute> attributes;
    std::vector<std::byte> compact;               ///< the values, where they stand in the header itself
    std::uint64_t address = 0;                    ///< of the values, where they are contiguous
    std::vector<std::uint32_t> chunk_dimensions;  ///< empty when it is not chunked
    std::vector<Filter> filters;                  ///< in the order in which they were applied
    std::vector<Chunk> chunks;                    ///< in order of their origins
};

struct Structure {
    std::map<std::string, std::map<std::string, Attribute>> groups;  ///< path ("/" is the root) -> attributes
    std::map<std::string, Dataset> datasets;                         ///< by path
};

inline constexpr std::size_t most_objects = 128;
inline constexpr std::size_t most_header_bytes = std::size_t{4} << 20;

/// Fails with bad_input, naming `place` and the object.
[[nodiscard]] Result<Structure> read_structure(const ReadOnlyFile& file, const std::string& place);

}  // namespace footing::h5
