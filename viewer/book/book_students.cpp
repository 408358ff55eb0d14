#include <fmt/format.h>

#include <charconv>

#include "viewer/book/book.h"
#include "viewer/book/book_place.h"
#include "viewer/book/book_schema.h"

namespace footing {

namespace {

constexpr const char* student_columns =
    "s.id, s.name, s.hand, s.weight_kg, s.unit, s.consent, s.consent_date, s.notes";
constexpr std::size_t most_listed = 8;

Student student_from(const Row& row) {
    Student student;
    student.id = row.integer(0);
    student.name = row.text(1);
    student.hand = hand_called(row.text(2)).value_or(Hand::right);
    student.weight_kg = row.maybe_real(3);
    student.unit = row.text(4) == "m" ? DistanceUnit::metres : DistanceUnit::yards;
    student.consent = consent_called(row.text(5)).value_or(Consent::not_asked);
    student.consent_date = row.text(6);
    student.notes = row.text(7);
    return student;
}

std::vector<Cell> cells_of(const Student& student) {
    return {student.name,
            name_key(student.name),
            hand_name(student.hand),
            cell_of(student.weight_kg),
            unit_name(student.unit),
            consent_name(student.consent),
            student.consent_date.empty() ? Cell() : Cell(student.consent_date),
            student.notes};
}

std::optional<std::int64_t> number_in(const std::string& who) {
    std::int64_t id = 0;
    const char* const end = who.data() + who.size();
    if (who.size() < 2 || who[0] != '#' || std::from_chars(who.data() + 1, end, id).ptr != end)
        return std::nullopt;
    return id;
}

/// For LIKE: what stands in the coach's words stands for itself.
std::string pattern_of(const std::string& part) {
    std::string pattern = "%";
    for (const char letter : name_key(part)) {
        if (letter == '%' || letter == '_' || letter == '\\') pattern += '\\';
        pattern += letter;
    }
    return pattern + "%";
}

}  // namespace

Result<Book> Book::open(const std::filesystem::path& path, OpenAs how) {
    auto database = Database::open(path, how);
    if (!database) return database.problem();
    Book book(std::move(database).value());
    if (Outcome done = migrate_book(book.database_, how); !done) return done.problem();
    if (how == OpenAs::to_read) return book;
    if (Outcome done = book.database_.keep_write_ahead_log(); !done) return done.problem();
    book.database_.keep_change_log();
    return book;
}

Result<std::vector<StudentLine>> Book::students(const std::string& part_of_name) {
    const auto rows = database_.rows(
        fmt::format(
            "SELECT {}, (SELECT count(*) FROM lesson l WHERE l.student_id = s.id), "
            "(SELECT count(*) FROM lesson l JOIN swing w ON w.lesson_id = l.id WHERE l.student_id = s.id), "
            "(SELECT max(l.date) FROM lesson l WHERE l.student_id = s.id) "
            "FROM student s WHERE s.name_key LIKE ? ESCAPE '\\' ORDER BY s.name_key, s.id",
            student_columns),
        {pattern_of(part_of_name)});
    if (!rows) return rows.problem();
    std::vector<StudentLine> lines;
    for (const Row& row : rows.value()) {
        lines.push_back({student_from(row), row.integer(8), row.integer(9), row.text(10)});
    }
    return lines;
}

Result<Student> Book::student(std::int64_t id) {
    return student(fmt::format("#{}", id));
}

Result<Student> Book::student(const std::string& who) {
    const auto number = number_in(who);
    const auto rows =
        number ? database_.rows(fmt::format("SELECT {} FROM student s WHERE s.id = ?", student_columns),
                                {*number})
               : database_.rows(fmt::format("SELECT {} FROM student s WHERE s.name_key = ? ORDER BY s.id",
                                            student_columns),
                                {name_key(who)});
    if (!rows) return rows.problem();
    if (rows.value().size() == 1) return student_from(rows.value().front());
    if (rows.value().empty()) {
        return Problem{ProblemKind::command_line, path().string(), "knows no student \"" + who + "\"",
                       "\"footing students\" lists them"};
    }
    // Never the one that happens to be written so: what is meant for one must not reach the other.
    std::string numbers;
    for (std::size_t i = 0; i < rows.value().size() && i < most_listed; ++i)
        numbers += fmt::format("{}#{}", i == 0 ? "" : ", ", rows.value()[i].integer(0));
    return Problem{ProblemKind::command_line, path().string(),
                   fmt::format("{} students are called \"{}\": {}", rows.value().size(), who, numbers),
                   "say which one by number"};
}

Outcome Book::check_namesakes(const Student& student, Namesakes namesakes) {
    if (namesakes == Namesakes::allowed) return Done{};
    if (number_in(student.name)) {
        return Problem{ProblemKind::command_line, student.name, "would be taken for a student's number",
                       "write another name"};
    }
    const auto taken = database_.number("SELECT id FROM student WHERE name_key = ? AND id <> ? LIMIT 1",
                                        {name_key(student.name), student.id});
    if (!taken) return taken.problem();
    if (taken.value() == 0) return Done{};
    return Problem{ProblemKind::command_line, student.name,
                   fmt::format("a student of this name is in the book already, #{}", taken.value()),
                   "write another name, or add --namesake when it is someone else"};
}

Result<std::int64_t> Book::add_student(const Student& student, Namesakes namesakes) {
    const Outcome done = database_.in_transaction([&]() -> Outcome {
        if (Outcome free = check_namesakes(student, namesakes); !free) return free;
        return database_.run(
            "INSERT INTO student(name, name_key, hand, weight_kg, unit, consent, consent_date, notes) "
            "VALUES(?, ?, ?, ?, ?, ?, ?, ?)",
            cells_of(student));
    });
    if (!done) return done.problem();
    return database_.last_id();
}

Outcome Book::change_student(const Student& student, Namesakes namesakes) {
    return database_.in_transaction([&]() -> Outcome {
        const auto before = this->student(student.id);
        if (!before) return before.problem();
        if (before.value().name != student.name) {
            if (Outcome free = check_namesakes(student, namesakes); !free) return free;
        }
        std::vector<Cell> cells = cells_of(student);
        cells.emplace_back(student.id);
        return database_.run(
            "UPDATE student SET name=?, name_key=?, hand=?, weight_kg=?, unit=?, consent=?, "
            "consent_date=?, notes=? WHERE id=?",
            cells);
    });
}

Result<Removed> Book::remove_student(std::int64_t id) {
    Removed removed;
    const Outcome done = database_.in_transaction_for_good([&]() -> Outcome {
        const auto rows = database_.rows(
            "SELECT s.name, (SELECT count(*) FROM wedge WHERE student_id = s.id), "
            "(SELECT count(*) FROM lesson WHERE student_id = s.id), "
            "(SELECT count(*) FROM lesson l JOIN swing w ON w.lesson_id = l.id WHERE l.student_id = s.id), "
            "(SELECT count(*) FROM lesson l JOIN swing w ON w.lesson_id = l.id JOIN shot ON shot.swing_id = "
            "w.id "
            "WHERE l.student_id = s.id) FROM student s WHERE s.id = ?",
            {id});
        if (!rows) return rows.problem();
        if (rows.value().empty()) {
            return Problem{ProblemKind::command_line, path().string(),
                           fmt::format("knows no student #{}", id), ""};
        }
        const Row& row = rows.value().front();
        const auto files = files_where("l.student_id", id);
        if (!files) return files.problem();
        removed = {row.text(0),    row.integer(1), row.integer(2),     row.integer(3),
                   row.integer(4), files.value(),  RemovedLog::emptied};
        if (Outcome gone = database_.run("DELETE FROM recording WHERE uuid IN "
                                         "(SELECT recording_uuid FROM lesson WHERE student_id = ?)",
                                         {id});
            !gone)
            return gone;
        // Lessons first: a wedge cannot go while swings are labelled with it.
        if (Outcome gone = database_.run("DELETE FROM lesson WHERE student_id = ?", {id}); !gone) return gone;
        return database_.run("DELETE FROM student WHERE id = ?", {id});
    });
    if (!done) return done.problem();
    // What was removed is not to be found in the write-ahead log either.
    const auto is_busy = database_.number("PRAGMA wal_checkpoint(TRUNCATE)");
    if (!is_busy) return is_busy.problem();
    removed.log = is_busy.value() == 0 ? RemovedLog::emptied : RemovedLog::in_use;
    return removed;
}

}  // namespace footing
