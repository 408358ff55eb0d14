#include <fmt/format.h>

#include <map>

#include "viewer/book/book.h"

namespace footing {

namespace {

Cell cell_of(const std::optional<Hand>& hand) {
    return hand ? Cell(hand_name(*hand)) : Cell();
}

Problem no_such_lesson(const std::filesystem::path& book, std::int64_t id) {
    return {ProblemKind::command_line, book.string(), fmt::format("knows no lesson {}", id),
            "\"footing lessons\" lists them"};
}

}  // namespace

Result<std::vector<LessonLine>> Book::lessons_where(const std::string& condition,
                                                    const std::vector<Cell>& values) {
    const auto rows = database_.rows(
        "SELECT l.id, l.student_id, l.date, l.recording_uuid, l.setup, l.note, s.name, r.file, "
        "(SELECT count(*) FROM swing w WHERE w.lesson_id = l.id), "
        "(SELECT count(*) FROM swing w JOIN shot h ON h.swing_id = w.id "
        "WHERE w.lesson_id = l.id AND h.carry_m IS NOT NULL), l.hand, "
        "r.start_utc_ns, r.zone, r.device "
        "FROM lesson l JOIN student s ON s.id = l.student_id LEFT JOIN recording r ON r.uuid = "
        "l.recording_uuid "
        "WHERE " +
            condition + " ORDER BY l.date DESC, l.id DESC",
        values);
    if (!rows) return rows.problem();
    std::vector<LessonLine> lines;
    for (const Row& row : rows.value()) {
        LessonLine line;
        line.lesson.id = row.integer(0);
        line.lesson.student = row.integer(1);
        line.lesson.date = row.text(2);
        line.lesson.recording_uuid = row.text(3);
        line.lesson.setup = row.text(4);
        line.lesson.note = row.text(5);
        line.student_name = row.text(6);
        line.recording_file = row.text(7);
        line.swings = row.integer(8);
        line.carries = row.integer(9);
        line.lesson.hand = hand_called(row.text(10));
        line.start_utc_ns = row.integer(11);
        line.zone = row.text(12);
        line.device = row.text(13);
        lines.push_back(std::move(line));
    }
    if (Outcome done = read_bands(lines, condition, values); !done) return done.problem();
    return lines;
}

Outcome Book::read_bands(std::vector<LessonLine>& lines, const std::string& condition,
                         const std::vector<Cell>& values) {
    const auto bands = database_.rows(
        "SELECT b.lesson_id, b.length, b.low, b.high FROM lesson_band b JOIN lesson l ON l.id = b.lesson_id "
        "WHERE " +
            condition,
        values);
    if (!bands) return bands.problem();
    std::map<std::int64_t, Lesson*> by_id;
    for (LessonLine& line : lines) by_id[line.lesson.id] = &line.lesson;
    for (const Row& row : bands.value()) {
        const auto lesson = by_id.find(row.integer(0));
        const auto length = length_called(row.text(1));
        if (lesson == by_id.end() || !length) continue;
        lesson->second->bands[static_cast<std::size_t>(*length)] = TargetBand{row.real(2), row.real(3)};
    }
    return Done{};
}

Result<std::vector<LessonLine>> Book::lessons(std::optional<std::int64_t> student) {
    return student ? lessons_where("l.student_id = ?", {*student}) : lessons_where("1", {});
}

Result<LessonLine> Book::lesson(std::int64_t id) {
    auto lines = lessons_where("l.id = ?", {id});
    if (!lines) return lines.problem();
    if (lines.value().empty()) return no_such_lesson(path(), id);
    return std::move(lines).value().front();
}

Outcome Book::write_bands(const Lesson& lesson) {
    if (Outcome done = database_.run("DELETE FROM lesson_band WHERE lesson_id = ?", {lesson.id}); !done)
        return done;
    for (const SwingLength length : swing_lengths) {
        const auto& band = lesson.bands[static_cast<std::size_t>(length)];
        if (!band) continue;
        if (Outcome done =
                database_.run("INSERT INTO lesson_band(lesson_id, length, low, high) VALUES(?, ?, ?, ?)",
                              {lesson.id, length_name(length), band->low, band->high});
            !done)
            return done;
    }
    return Done{};
}

Result<std::int64_t> Book::add_lesson(const Lesson& lesson) {
    Lesson added = lesson;
    const auto work = [&]() -> Outcome {
        if (!lesson.recording_uuid.empty()) {
            const auto taken =
                database_.number("SELECT id FROM lesson WHERE recording_uuid = ?", {lesson.recording_uuid});
            if (!taken) return taken.problem();
            if (taken.value() != 0) {
                return Problem{
                    ProblemKind::command_line, path().string(),
                    fmt::format("this recording is in the book already, as lesson {}", taken.value()), ""};
            }
        }
        if (Outcome done =
                database_.run("INSERT INTO lesson(student_id, date, recording_uuid, setup, note, hand) "
                              "VALUES(?, ?, ?, ?, ?, ?)",
                              {lesson.student, lesson.date,
                               lesson.recording_uuid.empty() ? Cell() : Cell(lesson.recording_uuid),
                               lesson.setup, lesson.note, cell_of(lesson.hand)});
            !done)
            return done;
        added.id = database_.last_id();
        return write_bands(added);
    };
    if (const Outcome done = database_.in_transaction(work); !done) return done.problem();
    return added.id;
}

Outcome Book::change_lesson(const Lesson& lesson) {
    return database_.in_transaction([&]() -> Outcome {
        if (Outcome done = database_.run(
                "UPDATE lesson SET student_id=?, date=?, setup=?, note=?, hand=? WHERE id=?",
                {lesson.student, lesson.date, lesson.setup, lesson.note, cell_of(lesson.hand), lesson.id});
            !done)
            return done;
        return write_bands(lesson);
    });
}

Result<std::vector<std::string>> Book::files_where(const std::string& condition, std::int64_t value) {
    const auto rows =
        database_.rows("SELECT r.file FROM lesson l JOIN recording r ON r.uuid = l.recording_uuid WHERE " +
                           condition + " = ? ORDER BY r.file",
                       {value});
    if (!rows) return rows.problem();
    std::vector<std::string> files;
    for (const Row& row : rows.value()) files.push_back(row.text(0));
    return files;
}

Result<Removed> Book::remove_lesson(std::int64_t id) {
    const auto line = lesson(id);
    if (!line) return line.problem();
    Removed removed;
    removed.name = line.value().student_name;
    removed.lessons = 1;
    const Outcome done = database_.in_transaction([&]() -> Outcome {
        const auto swings_gone = database_.number("SELECT count(*) FROM swing WHERE lesson_id = ?", {id});
        if (!swings_gone) return swings_gone.problem();
        removed.swings = swings_gone.value();
        const auto shots_gone = database_.number(
            "SELECT count(*) FROM swing w JOIN shot h ON h.swing_id = w.id WHERE w.lesson_id = ?", {id});
        if (!shots_gone) return shots_gone.problem();
        removed.shots = shots_gone.value();
        const auto files = files_where("l.id", id);
        if (!files) return files.problem();
        removed.recordings = files.value();
        return database_.run("DELETE FROM lesson WHERE id = ?", {id});
    });
    if (!done) return done.problem();
    return removed;
}

Outcome Book::put_recording(const IndexedRecording& recording) {
    return database_.run(
        "INSERT INTO recording(uuid, file, start_utc_ns, zone, duration_s, hand, outcome, device) VALUES(?, "
        "?, "
        "?, ?, ?, ?, ?, ?) "
        "ON CONFLICT(uuid) DO UPDATE SET file=excluded.file, start_utc_ns=excluded.start_utc_ns, "
        "zone=excluded.zone, "
        "duration_s=excluded.duration_s, hand=excluded.hand, outcome=excluded.outcome, "
        "device=excluded.device",
        {recording.uuid, recording.file, recording.start_utc_ns, recording.zone, recording.duration_s,
         hand_name(recording.hand), recording.outcome, recording.device});
}

Result<std::vector<IndexedRecording>> Book::recordings() {
    const auto rows = database_.rows(
        "SELECT uuid, file, start_utc_ns, zone, duration_s, hand, outcome, device FROM recording "
        "ORDER BY start_utc_ns DESC, uuid");
    if (!rows) return rows.problem();
    std::vector<IndexedRecording> recordings;
    for (const Row& row : rows.value()) {
        recordings.push_back({row.text(0), row.text(1), row.integer(2), row.text(3), row.real(4),
                              hand_called(row.text(5)).value_or(Hand::right), row.text(6), row.text(7)});
    }
    return recordings;
}

Outcome Book::rebuild_index(const std::vector<IndexedRecording>& recordings) {
    return database_.in_transaction([&]() -> Outcome {
        if (Outcome done = database_.run("DELETE FROM recording"); !done) return done;
        for (const IndexedRecording& recording : recordings) {
            if (Outcome done = put_recording(recording); !done) return done;
        }
        return Done{};
    });
}

}  // namespace footing
