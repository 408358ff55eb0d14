#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>

#include "viewer/book/book_schema.h"

namespace footing {

namespace {

constexpr std::int64_t last_without_change_log = 3;

std::int64_t newest_version() {
    return static_cast<std::int64_t>(book_schema_steps().size());
}

struct BookMarks {
    std::int64_t application = 0;
    std::int64_t version = 0;
    std::int64_t tables = 0;

    [[nodiscard]] bool is_empty() const { return application == 0 && version == 0 && tables == 0; }
};

Result<BookMarks> marks_of(Database& database) {
    BookMarks marks;
    for (const auto& [question, answer] : {std::pair("PRAGMA application_id", &marks.application),
                                           std::pair("PRAGMA user_version", &marks.version),
                                           std::pair("SELECT count(*) FROM sqlite_schema", &marks.tables)}) {
        const auto number = database.number(question);
        if (!number) return number.problem();
        *answer = number.value();
    }
    return marks;
}

Outcome run_steps(Database& database, std::int64_t from, std::int64_t to) {
    for (auto step = from; step < to; ++step) {
        if (Outcome done = database.run_script(book_schema_steps()[static_cast<std::size_t>(step)]); !done)
            return done;
    }
    // What takes a change of the older tables back does not fit the newer ones.
    return to > last_without_change_log ? database.run_script("DELETE FROM change_log") : Done{};
}

/// Every column of every table, with its type.
Result<std::set<std::string>> columns_in(Database& database) {
    const auto rows = database.rows(
        "SELECT t.name, c.name, c.type FROM sqlite_schema t JOIN pragma_table_info(t.name) c "
        "WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%'");
    if (!rows) return rows.problem();
    std::set<std::string> columns;
    for (const Row& row : rows.value())
        columns.insert(fmt::format("{}.{} ({})", row.text(0), row.text(1), row.text(2)));
    return columns;
}

Problem damaged(const Database& database, const std::string& why) {
    return {ProblemKind::bad_input, database.path().string(), "the lesson book is damaged: " + why,
            "take the newest backup"};
}

Outcome check_marks(Database& database, const BookMarks& marks) {
    if (marks.is_empty()) {
        return Problem{ProblemKind::bad_input, database.path().string(), "is empty, and no lesson book",
                       "take the newest backup, or name another file with --book"};
    }
    if (marks.application != book_application_id) {
        return Problem{ProblemKind::bad_input, database.path().string(), "is a database, but no lesson book",
                       "name another file with --book"};
    }
    if (marks.version > newest_version()) {
        return Problem{ProblemKind::bad_input, database.path().string(),
                       fmt::format("the lesson book has version {}, and this program knows up to {}",
                                   marks.version, newest_version()),
                       "use the newer Footing that wrote it"};
    }
    if (marks.version < 1)
        return damaged(database, fmt::format("it says that its version is {}", marks.version));
    const auto missing = missing_columns(database, marks.version);
    if (!missing) return missing.problem();
    if (missing.value().empty()) return Done{};
    return damaged(database, missing.value().front() + " is missing");
}

}  // namespace

Result<std::vector<std::string>> missing_columns(Database& database, std::int64_t version) {
    auto model = Database::in_memory();
    if (!model) return model.problem();
    if (Outcome done = run_steps(model.value(), 0, version); !done) return done.problem();
    const auto expected = columns_in(model.value());
    if (!expected) return expected.problem();
    const auto found = columns_in(database);
    if (!found) return found.problem();
    std::vector<std::string> missing;
    std::set_difference(expected.value().begin(), expected.value().end(), found.value().begin(),
                        found.value().end(), std::back_inserter(missing));
    return missing;
}

Outcome migrate_book(Database& database, OpenAs how) {
    const auto marks = marks_of(database);
    if (!marks) return marks.problem();
    if (marks.value().application == book_application_id && marks.value().version == newest_version())
        return check_marks(database, marks.value());
    if (database.is_read_only()) {
        if (Outcome done = check_marks(database, marks.value()); !done) return done;
        return Problem{
            ProblemKind::disk_failed, database.path().string(),
            fmt::format(
                "the lesson book has version {}, and may not be written to to bring it up to version {}",
                marks.value().version, newest_version()),
            "copy it to a folder of yours"};
    }
    return database.in_transaction([&]() -> Outcome {
        // Asked again: another program may have migrated it in between.
        const auto now = marks_of(database);
        if (!now) return now.problem();
        if (!now.value().is_empty() || how != OpenAs::create_if_absent) {
            if (Outcome done = check_marks(database, now.value()); !done) return done;
        }
        if (Outcome done = run_steps(database, now.value().version, newest_version()); !done) return done;
        return database.run_script(fmt::format("PRAGMA user_version={}; PRAGMA application_id={};",
                                               newest_version(), book_application_id));
    });
}

}  // namespace footing
