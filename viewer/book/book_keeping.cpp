#include <fmt/format.h>

#include <system_error>

#include "acquisition/record/file_steps.h"
#include "acquisition/record/safe_file.h"
#include "viewer/book/book.h"
#include "viewer/book/book_schema.h"

namespace footing {

Result<std::vector<std::string>> Book::check() {
    std::vector<std::string> wrong;
    const auto pages = database_.rows("PRAGMA integrity_check");
    if (!pages) return pages.problem();
    for (const Row& row : pages.value()) {
        if (row.text(0) != "ok") wrong.push_back(row.text(0));
    }
    const auto loose = database_.rows("PRAGMA foreign_key_check");
    if (!loose) return loose.problem();
    for (const Row& row : loose.value()) {
        wrong.push_back(
            fmt::format("a row of {} belongs to a {} that is not there", row.text(0), row.text(2)));
    }
    const auto missing = missing_columns(database_, static_cast<std::int64_t>(book_schema_steps().size()));
    if (!missing) return missing.problem();
    for (const std::string& column : missing.value()) wrong.push_back(column + " is missing");
    return wrong;
}

Outcome Book::back_up_to(const std::filesystem::path& path) {
    if (const Outcome is_free = check_name_is_free(path); !is_free) return is_free;
    const std::filesystem::path unfinished = temporary_beside(path);
    const auto copy = [&]() -> Outcome {
        if (Outcome made = write_new_file(unfinished, "", FileReaders::owner); !made) return made;
        if (Outcome copied = database_.copy_to(unfinished); !copied) return copied;
        auto copied = Book::open(unfinished, OpenAs::to_read);
        if (!copied) return copied.problem();
        const auto wrong = copied.value().check();
        if (!wrong) return wrong.problem();
        if (wrong.value().empty()) return Done{};
        return Problem{ProblemKind::disk_failed, path.string(),
                       "the copy is not sound: " + wrong.value().front(), "check the disk"};
    };
    Outcome done = copy();
    if (done) done = publish(unfinished, path);
    if (done) return done;
    std::error_code ignored;
    std::filesystem::remove(unfinished, ignored);
    Problem problem = done.problem();
    problem.place = path.string();
    return problem;
}

Result<std::vector<Book::Table>> Book::tables(std::optional<std::int64_t> student) {
    struct Source {
        const char* name;
        const char* select;
        const char* student_column;
    };
    std::vector<Table> all;
    for (const Source& source :
         {Source{"students",
                 "SELECT t.id, t.name, t.hand, t.weight_kg, t.unit, t.consent, t.consent_date, t.notes "
                 "FROM student t",
                 "t.id"},
          Source{"wedges", "SELECT t.* FROM wedge t", "t.student_id"},
          Source{"lessons",
                 "SELECT t.*, r.file AS recording_file FROM lesson t LEFT JOIN recording r "
                 "ON r.uuid = t.recording_uuid",
                 "t.student_id"},
          Source{"bands", "SELECT t.* FROM lesson_band t JOIN lesson l ON l.id = t.lesson_id",
                 "l.student_id"},
          Source{"swings", "SELECT t.* FROM swing t JOIN lesson l ON l.id = t.lesson_id", "l.student_id"},
          Source{"shots",
                 "SELECT t.* FROM shot t JOIN swing w ON w.id = t.swing_id JOIN lesson l "
                 "ON l.id = w.lesson_id",
                 "l.student_id"}}) {
        std::string select = source.select;
        std::vector<Cell> values;
        if (student) {
            select += fmt::format(" WHERE {} = ?", source.student_column);
            values.emplace_back(*student);
        }
        select += " ORDER BY 1, 2";
        auto rows = database_.rows(select, values);
        if (!rows) return rows.problem();
        all.push_back({source.name, database_.columns_of(select), std::move(rows).value()});
    }
    return all;
}

}  // namespace footing
