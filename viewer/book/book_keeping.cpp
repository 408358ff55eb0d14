#include <fmt/format.h>

#include <set>
#include <system_error>

#include "acquisition/record/file_steps.h"
#include "acquisition/record/safe_file.h"
#include "viewer/book/book.h"
#include "viewer/book/book_schema.h"
#include "viewer/book/swing_damage.h"

namespace footing {

namespace {

/// The lesson, else the student, that a row belongs to, in words; empty where there is none.
std::string whose_row(Database& database, const std::string& table, std::int64_t id) {
    const bool is_students = table == "student" || table == "wedge";
    std::string condition;
    if (table == "lesson" || table == "lesson_band") condition = "l.id = ?";
    if (table == "swing" || table == "shot") condition = "l.id = (SELECT lesson_id FROM swing WHERE id = ?)";
    if (table == "student") condition = "s.id = ?";
    if (table == "wedge") condition = "s.id = (SELECT student_id FROM wedge WHERE id = ?)";
    if (condition.empty()) return "";
    const auto rows =
        is_students
            ? database.rows("SELECT s.name FROM student s WHERE " + condition, {id})
            : database.rows(
                  "SELECT s.name, l.id, l.date FROM lesson l JOIN student s ON s.id = l.student_id WHERE " +
                      condition,
                  {id});
    if (!rows || rows.value().empty()) return "";
    const Row& row = rows.value().front();
    if (is_students) return row.text(0);
    return fmt::format("lesson {} of {} ({})", row.integer(1), row.text(0), row.text(2));
}

/// Whose rows these are, by name.
std::set<std::string> owners_of(Database& database, const std::vector<UndoneRows>& tables) {
    std::set<std::string> of;
    for (const UndoneRows& rows : tables) {
        for (const std::int64_t id : rows.ids) {
            if (std::string whose = whose_row(database, rows.table, id); !whose.empty())
                of.insert(std::move(whose));
        }
    }
    return of;
}

}  // namespace

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
    if (!wrong.empty()) return wrong;
    const auto swings = swings_as_they_are("true", {});
    if (!swings) return swings.problem();
    for (const BookSwing& swing : swings.value()) {
        if (const std::string damage = impossible_words(swing); !damage.empty())
            wrong.push_back(fmt::format("swing {} of lesson {} has {}", swing.number, swing.lesson, damage));
    }
    return wrong;
}

Result<Undone> Book::undo() {
    std::set<std::string> of;
    const auto look = [&](const std::vector<UndoneRows>& tables) { of.merge(owners_of(database_, tables)); };
    auto change = database_.take_back_newest(look);
    if (!change) return change.problem();
    return Undone{std::move(change).value(), std::vector<std::string>(of.begin(), of.end())};
}

Result<Undone> Book::make_again(const std::string& changes) {
    auto made = database_.make_again(changes);
    if (!made) return made.problem();
    const std::set<std::string> of = owners_of(database_, made.value());
    return Undone{{"", changes, std::move(made).value()}, std::vector<std::string>(of.begin(), of.end())};
}

Result<Undone> Book::redo() {
    auto made = database_.make_newest_again();
    if (!made) return made.problem();
    const std::set<std::string> of = owners_of(database_, made.value().rows);
    return Undone{std::move(made).value(), std::vector<std::string>(of.begin(), of.end())};
}

Outcome Book::back_up_to(const std::filesystem::path& path) {
    if (const Outcome is_free = check_name_is_free(path); !is_free) return is_free;
    const std::filesystem::path unfinished = temporary_beside(path);
    // What is wrong with the book is not the copy's fault.
    if (const auto wrong = check(); !wrong || !wrong.value().empty()) {
        return wrong ? Problem{ProblemKind::bad_input, this->path().string(), "the lesson book is damaged",
                               "keep the backups that there are, and take the newest one"}
                     : wrong.problem();
    }
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
                 "SELECT t.*, r.file AS recording_file, r.device AS recording_device FROM lesson t LEFT JOIN "
                 "recording r "
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
