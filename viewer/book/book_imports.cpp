#include "viewer/book/book.h"
#include "viewer/book/book_place.h"
#include "viewer/book/club_name.h"

namespace footing {

Result<std::optional<ShotTableShape>> Book::shape_of(const std::string& header) {
    const auto rows = database_.rows(
        "SELECT header, carry_column, club_column, date_column, side_column, carry_unit, "
        "side_unit, date_order FROM csv_shape WHERE header = ?",
        {header});
    if (!rows) return rows.problem();
    if (rows.value().empty()) return std::optional<ShotTableShape>();
    const Row& row = rows.value().front();
    return std::optional(ShotTableShape{row.text(0), row.text(1), row.text(2), row.text(3), row.text(4),
                                        row.text(5), row.text(6), row.text(7)});
}

Outcome Book::remember_shape(const ShotTableShape& shape) {
    return database_.run(
        "INSERT OR REPLACE INTO csv_shape(header, carry_column, club_column, date_column, "
        "side_column, carry_unit, side_unit, date_order) VALUES(?, ?, ?, ?, ?, ?, ?, ?)",
        {shape.header, shape.carry_column, shape.club_column, shape.date_column, shape.side_column,
         shape.carry_unit, shape.side_unit, shape.date_order});
}

Result<std::optional<std::int64_t>> Book::club_called(std::int64_t student, const std::string& word) {
    const auto rows = database_.rows("SELECT wedge_id FROM csv_club WHERE student_id = ? AND club_key = ?",
                                     {student, name_key(word)});
    if (!rows) return rows.problem();
    if (!rows.value().empty()) return std::optional(rows.value().front().integer(0));
    const auto all = wedges(student);
    if (!all) return all.problem();
    const Wedge* same = find_club(all.value(), word);
    return same ? std::optional(same->id) : std::optional<std::int64_t>();
}

Outcome Book::remember_club(std::int64_t student, const std::string& word, std::int64_t wedge) {
    return database_.run("INSERT OR REPLACE INTO csv_club(student_id, club_key, wedge_id) VALUES(?, ?, ?)",
                         {student, name_key(word), wedge});
}

Result<std::optional<ImportedLine>> Book::imported_line(std::int64_t student, const std::string& line,
                                                        std::int64_t copy,
                                                        std::optional<std::int64_t> only_lesson) {
    const auto rows = database_.rows(
        "SELECT i.swing_id, i.carry_m, i.side_m FROM imported_line i JOIN swing w ON w.id = i.swing_id "
        "WHERE i.student_id = ? AND i.line = ? AND i.copy = ? AND ifnull(?, w.lesson_id) = w.lesson_id",
        {student, line, copy, cell_of(only_lesson)});
    if (!rows) return rows.problem();
    if (rows.value().empty()) return std::optional<ImportedLine>();
    const Row& row = rows.value().front();
    return std::optional(
        ImportedLine{student, line, copy, row.integer(0), row.maybe_real(1), row.maybe_real(2)});
}

Outcome Book::note_imported(const ImportedLine& line) {
    return database_.run(
        "INSERT OR REPLACE INTO imported_line(student_id, line, copy, swing_id, carry_m, side_m) "
        "VALUES(?, ?, ?, ?, ?, ?)",
        {line.student, line.line, line.copy, line.swing, cell_of(line.carry_m), cell_of(line.side_m)});
}

}  // namespace footing
