#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <span>

#include "acquisition/frame/result.h"

namespace footing {

/// A regular file opened for reading, by place. Not mapped into memory: a file that somebody cuts off
/// meanwhile gives a short read and not a crash. read_at is safe from several threads.
class ReadOnlyFile {
  public:
    /// Fails with bad_input: missing, a folder, not a regular file, not readable, or a journal that a program
    /// is still writing.
    [[nodiscard]] static Result<ReadOnlyFile> open(const std::filesystem::path& path);

    ReadOnlyFile(ReadOnlyFile&& other) noexcept;
    ReadOnlyFile& operator=(ReadOnlyFile&& other) noexcept;
    ~ReadOnlyFile();

    [[nodiscard]] std::uint64_t size() const { return size_; }

    /// Reads up to bytes.size() bytes from `offset`; returns how many there were.
    [[nodiscard]] std::size_t read_at(std::uint64_t offset, std::span<std::byte> bytes) const;

  private:
    ReadOnlyFile(int file, std::uint64_t size) : file_(file), size_(size) {}
    int file_ = -1;
    std::uint64_t size_ = 0;
};

}  // namespace footing
