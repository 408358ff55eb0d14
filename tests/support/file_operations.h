#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

namespace footing::test {

/// One thing that a program did to a file or a name, as hostile_system.cpp writes it down.
struct FileOperation {
    enum class Kind : std::uint8_t {
        create,       ///< first: the new name
        write,        ///< first: the bytes, at the offset
        truncate,     ///< to the offset
        sync,         ///< all that was written to this file before lasts
        sync_folder,  ///< all names given and taken before last
        rename,       ///< first becomes second
        link,         ///< second is a name for first too
        unlink,       ///< first is no name any more
    };
    struct Head {
        Kind kind = Kind::write;
        std::uint64_t inode = 0;
        std::uint64_t offset = 0;
        std::uint64_t first_bytes = 0;
        std::uint64_t second_bytes = 0;
    };
    Kind kind = Kind::write;
    std::uint64_t inode = 0;
    std::uint64_t offset = 0;
    std::string first;
    std::string second;
};

/// The whole log of a program that has ended, in order.
inline std::vector<FileOperation> parse_file_operations(std::string_view log) {
    std::vector<FileOperation> operations;
    while (log.size() >= sizeof(FileOperation::Head)) {
        FileOperation::Head head;
        std::memcpy(&head, log.data(), sizeof head);
        log.remove_prefix(sizeof head);
        operations.push_back({head.kind, head.inode, head.offset,
                              std::string(log.substr(0, head.first_bytes)),
                              std::string(log.substr(head.first_bytes, head.second_bytes))});
        log.remove_prefix(head.first_bytes + head.second_bytes);
    }
    return operations;
}

}  // namespace footing::test
