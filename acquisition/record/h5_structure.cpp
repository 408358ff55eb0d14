#include "acquisition/record/h5_structure.h"

#include <algorithm>
#include <limits>
#include <set>

#include "acquisition/record/h5_messages.h"

namespace footing::h5 {

namespace {

constexpr std::array<unsigned char, 8> signature{0x89, 'H', 'D', 'F', '\r', '\n', 0x1A, '\n'};
constexpr std::size_t most_group_depth = 3;
constexpr unsigned most_tree_levels = 8;

using Links = std::vector<std::pair<std::string, std::uint64_t>>;

class Walker {
  public:
    Walker(const ReadOnlyFile& file, Structure& structure) : file_(file), structure_(structure) {}

    /// What is being read, for the message when it turns out malformed.
    [[nodiscard]] const std::string& at() const { return at_; }

    void walk() { walk_object("/", read_superblock(), 0); }

  private:
    std::uint64_t read_superblock() {
        const std::vector<std::byte> head = load(file_, 0, std::min<std::uint64_t>(file_.size(), 100));
        ByteCursor cursor(head);
        if (head.size() < 8 || std::memcmp(cursor.take_bytes(8).data(), signature.data(), 8) != 0) {
            throw Malformed("it is no HDF5 file");
        }
        const auto version = cursor.take<std::uint8_t>();
        if (version > 1) {
            throw Malformed(
                "it is laid out in a newer version of HDF5's file format; "
                "h5repack --low=0 --high=0 OLD NEW rewrites it");
        }
        cursor.skip(4);
        if (cursor.take<std::uint8_t>() != 8 || cursor.take<std::uint8_t>() != 8) {
            throw Malformed("its addresses are not of 8 bytes");
        }
        cursor.skip(version == 1 ? 13 : 9);
        if (cursor.take<std::uint64_t>() != 0) throw Malformed("its first address is not 0");
        cursor.skip(8);
        if (cursor.take<std::uint64_t>() > file_.size()) throw Malformed("it has been cut off");
        cursor.skip(16);
        return cursor.take<std::uint64_t>();
    }

    void walk_object(const std::string& path, std::uint64_t address, std::size_t depth) {
        at_ = path;
        // Objects are met once: a second way to one of them could be a circle.
        if (!met_.insert(address).second || met_.size() > most_objects || depth > most_group_depth) {
            throw Malformed("it holds more objects than a recording does, or the same one twice");
        }
        const std::vector<Message> messages = read_object_header(file_, address);
        std::map<std::string, Attribute> attributes;
        bool is_dataset = false;
        Links links;
        for (const Message& message : messages) {
            if ((message.flags & 2U) != 0) throw Malformed("it uses shared messages");
            switch (message.type) {
                case MessageType::layout:
                    is_dataset = true;
                    break;
                case MessageType::external_files:
                    throw Malformed("its values are in another file");
                case MessageType::attribute:
                    attributes.insert(read_attribute(file_, message.bytes));
                    break;
                case MessageType::attribute_info:
                    refuse_dense(message.bytes, 1);
                    break;
                case MessageType::link_info:
                    refuse_dense(message.bytes, 8);
                    break;
                case MessageType::link:
                    links.push_back(read_link(message.bytes));
                    break;
                case MessageType::symbol_table:
                    read_symbol_table(message.bytes, links);
                    break;
                default:
                    break;
            }
        }
        if (is_dataset) {
            structure_.datasets.emplace(path, read_dataset(messages, std::move(attributes)));
            return;
        }
        structure_.groups.emplace(path, std::move(attributes));
        for (const auto& [name, child] : links)
            walk_object((depth == 0 ? "/" : path + "/") + name, child, depth + 1);
    }

    /// Many links or attributes of a newer file are kept in a heap of their own, which is not read here.
    /// `index_bytes`: of the optional creation index.
    static void refuse_dense(std::span<const std::byte> bytes, std::size_t index_bytes) {
        ByteCursor cursor(bytes);
        cursor.skip(1);
        if ((cursor.take<std::uint8_t>() & 1U) != 0) cursor.skip(index_bytes == 8 ? 8 : 2);
        if (cursor.take<std::uint64_t>() != no_address) {
            throw Malformed(
                "it holds links to other files, or is laid out in a newer version of HDF5's file "
                "format; then h5repack --low=0 --high=0 OLD NEW rewrites it");
        }
    }

    void read_symbol_table(std::span<const std::byte> message, Links& links) {
        ByteCursor cursor(message);
        const auto tree = cursor.take<std::uint64_t>();
        const std::vector<std::byte> head = load(file_, cursor.take<std::uint64_t>(), 32);
        ByteCursor heap(head);
        expect_signature(heap, "HEAP");
        heap.skip(4);
        const auto heap_bytes = heap.take<std::uint64_t>();
        heap.skip(8);
        if (heap_bytes > most_header_bytes) throw Malformed("its names take too much room");
        const std::vector<std::byte> names =
            load(file_, heap.take<std::uint64_t>(), static_cast<std::size_t>(heap_bytes));
        read_group_node(tree, names, most_tree_levels, links);
    }

    void read_group_node(std::uint64_t address, std::span<const std::byte> names, unsigned levels,
                         Links& links) {
        const std::vector<std::byte> head = load(file_, address, 24);
        ByteCursor cursor(head);
        expect_signature(cursor, "TREE");
        if (cursor.take<std::uint8_t>() != 0) throw Malformed("its index is of the wrong kind");
        const unsigned level = cursor.take<std::uint8_t>();
        if (level >= levels) throw Malformed("its index is too deep");
        const std::size_t entries = cursor.take<std::uint16_t>();
        const std::vector<std::byte> body = load(file_, address + 24, entries * 16 + 8);
        ByteCursor walk(body);
        for (std::size_t i = 0; i < entries; ++i) {
            walk.skip(8);
            const auto child = walk.take<std::uint64_t>();
            if (level > 0) {
                read_group_node(child, names, level, links);
            } else {
                read_symbols(child, names, links);
            }
        }
    }

    void read_symbols(std::uint64_t address, std::span<const std::byte> names, Links& links) {
        const std::vector<std::byte> head = load(file_, address, 8);
        ByteCursor cursor(head);
        expect_signature(cursor, "SNOD");
        cursor.skip(2);
        const std::size_t count = cursor.take<std::uint16_t>();
        if (links.size() + count > most_objects)
            throw Malformed("it holds more objects than a recording does");
        const std::vector<std::byte> body = load(file_, address + 8, count * 40);
        ByteCursor walk(body);
        for (std::size_t i = 0; i < count; ++i) {
            const auto name_at = walk.take<std::uint64_t>();
            const auto object = walk.take<std::uint64_t>();
            const auto cached = walk.take<std::uint32_t>();
            walk.skip(20);
            if (name_at >= names.size()) throw Malformed("a name lies beyond the names");
            const std::string name = text_of(names.subspan(static_cast<std::size_t>(name_at)));
            if (cached == 2)
                throw Malformed("holds a soft link (" + name + "), which a recording never does");
            links.emplace_back(name, object);
        }
    }

    Dataset read_dataset(const std::vector<Message>& messages, std::map<std::string, Attribute> attributes) {
        Dataset dataset;
        dataset.attributes = std::move(attributes);
        StoredLayout layout;
        bool has_space = false;
        bool has_type = false;
        for (const Message& message : messages) {
            switch (message.type) {
                case MessageType::dataspace:
                    dataset.dimensions = read_dataspace(message.bytes);
                    has_space = true;
                    break;
                case MessageType::datatype: {
                    const StoredType type = read_datatype(message.bytes);
                    if (type.variable_length) throw Malformed("its texts are of variable length");
                    dataset.type = type.type;
                    has_type = true;
                    break;
                }
                case MessageType::layout:
                    layout = read_layout(message.bytes);
                    break;
                case MessageType::filters:
                    dataset.filters = read_filters(message.bytes);
                    break;
                default:
                    break;
            }
        }
        if (!has_space || !has_type) throw Malformed("its shape or type is missing");
        const std::uint64_t bytes = value_bytes(dataset);
        if (!layout.chunk_dimensions.empty()) {
            read_chunked(dataset, layout);
        } else if (layout.address != no_address) {
            if (layout.address > file_.size() || bytes > file_.size() - layout.address ||
                bytes > layout.contiguous_bytes || !dataset.filters.empty()) {
                throw Malformed("its values lie beyond the end of the file");
            }
            dataset.address = layout.address;
        } else if (layout.compact.size() < bytes) {
            throw Malformed("its values are missing");
        }
        dataset.compact = std::move(layout.compact);
        return dataset;
    }

    static std::uint64_t value_bytes(const Dataset& dataset) {
        std::uint64_t bytes = dataset.type.bytes;
        for (const std::uint64_t dimension : dataset.dimensions) {
            if (dimension != 0 && bytes > std::numeric_limits<std::uint64_t>::max() / dimension) {
                throw Malformed("its shape is impossible");
            }
            bytes *= dimension;
        }
        return bytes;
    }

    void read_chunked(Dataset& dataset, const StoredLayout& layout) {
        if (layout.chunk_dimensions.size() != dataset.dimensions.size()) {
            throw Malformed("its chunks have another rank than its values");
        }
        dataset.chunk_dimensions = layout.chunk_dimensions;
        for (std::size_t k = 0; k < dataset.dimensions.size(); ++k) {
            if (dataset.dimensions[k] / dataset.chunk_dimensions[k] > file_.size()) {
                throw Malformed("it claims more chunks than fit into the file");
            }
        }
        // Each node is in the file once; more visits than would fit there are a circle.
        nodes_left_ = file_.size() / 24 + 1;
        stored_left_ = file_.size();
        if (layout.address != no_address) read_chunk_node(layout.address, most_tree_levels, dataset);
        drop_misplaced_chunks(dataset);
    }

    /// A chunk that is not on the raster of chunks, or claims the place of another one, stands for nothing:
    /// its place counts as damaged, not the whole file.
    static void drop_misplaced_chunks(Dataset& dataset) {
        std::vector<Chunk>& chunks = dataset.chunks;
        std::erase_if(chunks, [&](const Chunk& chunk) {
            for (std::size_t k = 0; k < dataset.dimensions.size(); ++k) {
                if (chunk.origin[k] % dataset.chunk_dimensions[k] != 0 ||
                    chunk.origin[k] >= dataset.dimensions[k]) {
                    return true;
                }
            }
            return false;
        });
        std::sort(chunks.begin(), chunks.end(),
                  [](const Chunk& a, const Chunk& b) { return a.origin < b.origin; });
        std::vector<Chunk> alone;
        for (std::size_t i = 0; i < chunks.size(); ++i) {
            const bool as_before = i > 0 && chunks[i - 1].origin == chunks[i].origin;
            const bool as_after = i + 1 < chunks.size() && chunks[i + 1].origin == chunks[i].origin;
            if (!as_before && !as_after) alone.push_back(chunks[i]);
        }
        chunks = std::move(alone);
    }

    void read_chunk_node(std::uint64_t address, unsigned levels, Dataset& dataset) {
        if (nodes_left_-- == 0) throw Malformed("its index goes round in circles");
        const std::vector<std::byte> head = load(file_, address, 24);
        ByteCursor cursor(head);
        expect_signature(cursor, "TREE");
        if (cursor.take<std::uint8_t>() != 1) throw Malformed("its index is of the wrong kind");
        const unsigned level = cursor.take<std::uint8_t>();
        if (level >= levels) throw Malformed("its index is too deep");
        const std::size_t entries = cursor.take<std::uint16_t>();
        const std::size_t rank = dataset.dimensions.size();
        const std::vector<std::byte> body = load(file_, address + 24, entries * (8 + 8 * (rank + 1) + 8));
        ByteCursor walk(body);
        for (std::size_t i = 0; i < entries; ++i) {
            Chunk chunk;
            chunk.stored_bytes = walk.take<std::uint32_t>();
            chunk.skipped_filters = walk.take<std::uint32_t>();
            for (std::size_t k = 0; k < rank; ++k) chunk.origin[k] = walk.take<std::uint64_t>();
            walk.skip(8);
            chunk.address = walk.take<std::uint64_t>();
            if (level > 0) {
                read_chunk_node(chunk.address, level, dataset);
                continue;
            }
            if (chunk.address > file_.size() || chunk.stored_bytes > file_.size() - chunk.address) {
                throw Malformed("a chunk lies beyond the end of the file");
            }
            if (dataset.chunks.size() >= file_.size())
                throw Malformed("it has more chunks than fit into the file");
            dataset.chunks.push_back(chunk);
        }
    }

    const ReadOnlyFile& file_;
    Structure& structure_;
    std::string at_ = "/";
    std::set<std::uint64_t> met_;
    std::uint64_t nodes_left_ = 0;
    std::uint64_t stored_left_ = 0;
};

}  // namespace

Result<Structure> read_structure(const ReadOnlyFile& file, const std::string& place) {
    Structure structure;
    Walker walker(file, structure);
    try {
        walker.walk();
    } catch (const Malformed& malformed) {
        return Problem{ProblemKind::bad_input, place + (walker.at() == "/" ? "" : ", " + walker.at()),
                       malformed.what(),
                       "copy it again from where it was made; footing recover may save a part of it"};
    }
    return structure;
}

}  // namespace footing::h5
