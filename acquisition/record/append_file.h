#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>

#include "acquisition/frame/result.h"

namespace footing {

/// A file that only grows. The door between the journal and the disk; a test puts a failing disk behind it.
/// One thread at a time.
class AppendFile {
  public:
    virtual ~AppendFile() = default;
    /// Appends all of the bytes or fails with disk_failed; what part of them reached the file is then
    /// unknown.
    virtual Outcome append(std::span<const std::byte> bytes) = 0;
    /// Gives the file its name, now that its beginning is written: whoever finds it finds more than an empty
    /// file. Fails with command_line when something of this name exists, else with disk_failed.
    virtual Outcome appear() = 0;
    /// Asks for all that was appended to be put on the disk itself, and does not wait: a busy disk may take
    /// seconds. Fails when an earlier request failed.
    virtual Outcome sync_soon() = 0;
    /// Returns when all that was appended is on the disk itself.
    virtual Outcome sync() = 0;
    /// Cuts the file off, to drop a half-written record.
    virtual Outcome cut_to(std::uint64_t bytes) = 0;
};

/// Creates a file of the disk exclusively (R15), locked against readers until closed, under a temporary name
/// until it appears as `path`; gone if it never does. Syncing has a thread of its own. Fails with
/// command_line when something called `path` exists, else with disk_failed.
[[nodiscard]] Result<std::unique_ptr<AppendFile>> create_append_file(const std::filesystem::path& path);

}  // namespace footing
