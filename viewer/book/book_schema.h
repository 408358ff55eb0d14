#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/database.h"

namespace footing {

/// Marks a SQLite file as a lesson book ("FtBk").
inline constexpr std::int64_t book_application_id = 0x4674426B;

/// The steps from an empty file to the schema of today: after step i the version is i + 1. A step that was
/// ever published is never changed; a new version is a new step at the end (docs/lesson_book.md).
[[nodiscard]] const std::vector<std::string>& book_schema_steps();

/// Brings an older book, or an empty file that may become one, up to today's schema, all of it or nothing.
/// Fails with bad_input: another kind of file, a book of a newer program, one whose tables are not those of
/// its version; disk_failed: an older one that may not be written to.
[[nodiscard]] Outcome migrate_book(Database& database, OpenAs how);

/// The columns of this version (from 1 to today's) that are not there with their type: "shot.carry_m (REAL)".
[[nodiscard]] Result<std::vector<std::string>> missing_columns(Database& database, std::int64_t version);

}  // namespace footing
