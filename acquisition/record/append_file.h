#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>

#include "acquisition/frame/result.h"

namespace footing {

/// A file that only grows. The door between the journal and the disk; a test puts a failing disk behind it.
class AppendFile {
  public:
    virtual ~AppendFile() = default;
    /// Appends all of the bytes or fails with disk_failed; what part of them reached the file is then
    /// unknown.
    virtual Outcome append(std::span<const std::byte> bytes) = 0;
    /// Returns when all that was appended is on the disk itself.
    virtual Outcome sync() = 0;
    /// Cuts the file off, to drop a half-written record.
    virtual Outcome cut_to(std::uint64_t bytes) = 0;
};

/// Creates a file of the disk exclusively (R15), locked against readers until closed. Fails with command_line
/// when something of this name exists, else with disk_failed.
[[nodiscard]] Result<std::unique_ptr<AppendFile>> create_append_file(const std::filesystem::path& path);

}  // namespace footing
