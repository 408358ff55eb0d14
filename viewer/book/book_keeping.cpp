#include <fmt/format.h>

#include <system_error>

#include "viewer/book/book.h"

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
    return wrong;
}

Outcome Book::back_up_to(const std::filesystem::path& path) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) {
        return Problem{ProblemKind::command_line, path.string(), "exists already", "write another name"};
    }
    const std::filesystem::path unfinished = path.string() + ".unfinished";
    std::filesystem::remove(unfinished, ignored);
    if (Outcome done = database_.copy_to(unfinished); !done) {
        std::filesystem::remove(unfinished, ignored);
        Problem problem = done.problem();
        problem.place = path.string();
        return problem;
    }
    std::filesystem::permissions(
        unfinished, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write, ignored);
    const auto is_sound = [&]() -> Outcome {
        auto copy = Book::open(unfinished, OpenAs::existing);
        if (!copy) return copy.problem();
        const auto wrong = copy.value().check();
        if (!wrong) return wrong.problem();
        if (wrong.value().empty()) return Done{};
        return Problem{ProblemKind::disk_failed, path.string(),
                       "the copy is not sound: " + wrong.value().front(), "check the disk"};
    };
    Outcome done = is_sound();
    std::error_code failure;
    if (done) {
        // A hard link never replaces what is there.
        std::filesystem::create_hard_link(unfinished, path, failure);
        if (failure) std::filesystem::rename(unfinished, path, failure);
        if (failure) done = Problem{ProblemKind::disk_failed, path.string(), failure.message(), ""};
    }
    std::filesystem::remove(unfinished, ignored);
    return done;
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
