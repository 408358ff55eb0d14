#pragma once

#include <filesystem>
#include <string_view>

#include "acquisition/frame/result.h"

namespace footing {

/// Who may read a new file: whom the user lets read files (umask), or its owner only, for people's data.
enum class FileReaders { as_usual, owner };

/// Writes a whole file so that at every instant either the old one or the new one is there: a new file beside
/// it under a name that nobody has (created exclusively), written, synchronised, renamed over `path`, and the
/// folder synchronised (R14). Into a device or a pipe it writes straight. Fails with disk_failed (full, no
/// such folder, not allowed), and then leaves nothing behind.
[[nodiscard]] Outcome write_file_safely(const std::filesystem::path& path, std::string_view bytes,
                                        FileReaders readers = FileReaders::as_usual);

/// Fails with command_line when something has this name already; to be asked before an hour of work.
[[nodiscard]] Outcome check_name_is_free(const std::filesystem::path& path);

/// The same as write_file_safely for a file that must not exist yet (R15). Fails with command_line when the
/// name is taken, disk_failed.
[[nodiscard]] Outcome write_new_file(const std::filesystem::path& path, std::string_view bytes,
                                     FileReaders readers = FileReaders::as_usual);

}  // namespace footing
