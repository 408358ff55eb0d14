#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "acquisition/frame/result.h"

namespace footing {

/// "PLACE: could not WHAT: No space left on device", as disk_failed, with advice where there is some.
[[nodiscard]] Problem disk_problem(const std::filesystem::path& path, const std::string& what,
                                   int error_number);

/// Whether something has this name. What cannot even be looked at (a name too long, links in a ring) is not
/// there; std::filesystem would throw.
[[nodiscard]] bool is_there(const std::filesystem::path& path);

/// Writes all of it to a file that is open; 0, or the error's number.
[[nodiscard]] int write_all(int file, std::string_view bytes);

/// The problem that something called `path` exists already (command_line).
[[nodiscard]] Problem exists_already(const std::filesystem::path& path);

/// A name beside `target` that nothing has: "lesson.h5.4f21c9aa.tmp".
[[nodiscard]] std::filesystem::path temporary_beside(const std::filesystem::path& target);

/// Syncs `temporary`, gives it the name `target` and syncs the folder (R14). Never replaces anything: when
/// `target` exists, fails with command_line and leaves both as they are.
[[nodiscard]] Outcome publish(const std::filesystem::path& temporary, const std::filesystem::path& target);

/// Makes created, renamed and removed names in the folder of `path` last.
[[nodiscard]] Outcome sync_folder_of(const std::filesystem::path& path);

/// Bytes that an ordinary user may still write on the disk that holds `path`; a very large number when
/// unknown.
[[nodiscard]] std::uint64_t free_bytes_beside(const std::filesystem::path& path);

/// Random, RFC 4122 version 4.
[[nodiscard]] std::string new_uuid();

}  // namespace footing
