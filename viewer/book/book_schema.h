#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"

namespace footing {

class Database;

/// Marks a SQLite file as a lesson book ("FtBk").
inline constexpr std::int64_t book_application_id = 0x4674426B;

/// The steps from an empty file to the schema of today: after step i the version is i + 1. A step that was
/// ever published is never changed; a new version is a new step at the end (docs/lesson_book.md).
[[nodiscard]] const std::vector<std::string>& book_schema_steps();

/// Brings an empty or older book up to today's schema, all of it or nothing. Fails with bad_input: another
/// kind of file, a book of a newer program.
[[nodiscard]] Outcome migrate_book(Database& database);

}  // namespace footing
