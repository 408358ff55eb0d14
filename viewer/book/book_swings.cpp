#include <fmt/format.h>

#include <algorithm>

#include "viewer/book/book.h"
#include "viewer/book/swing_damage.h"
#include "viewer/book/swing_rows.h"

namespace footing {

namespace {

bool has_coach_or_shot(const BookSwing& swing) {
    return swing.wedge || swing.length || swing.coach_kind || swing.coach != CoachSays::nothing ||
           !swing.note.empty() || swing.shot;
}

double middle_s(const BookSwing& swing) {
    return swing.strike_s.value_or((swing.from_s.value_or(0.0) + swing.to_s.value_or(0.0)) / 2.0);
}

/// Whether two findings are the same swing: the middle of one lies within the other.
bool is_same_swing(const BookSwing& a, const BookSwing& b) {
    return a.from_s && a.to_s && b.from_s && b.to_s && middle_s(a) >= *b.from_s && middle_s(a) <= *b.to_s;
}

void take_from_coach(BookSwing& found, const BookSwing& known) {
    found.id = known.id;
    found.wedge = known.wedge;
    found.length = known.length;
    found.coach_kind = known.coach_kind;
    found.coach = known.coach;
    found.reason = known.reason;
    found.note = known.note;
    found.shot = known.shot;
}

}  // namespace

Result<std::vector<BookSwing>> Book::swings_as_they_are(const std::string& condition,
                                                        const std::vector<Cell>& values) {
    const auto rows = database_.rows(
        fmt::format("SELECT {} FROM swing w JOIN lesson l ON l.id = w.lesson_id "
                    "LEFT JOIN shot h ON h.swing_id = w.id WHERE {} ORDER BY l.date, l.id, w.number",
                    swing_selection(), condition),
        values);
    if (!rows) return rows.problem();
    std::vector<BookSwing> swings;
    swings.reserve(rows.value().size());
    for (const Row& row : rows.value()) swings.push_back(swing_from(row));
    return swings;
}

Result<std::vector<BookSwing>> Book::swings_where(const std::string& column, std::int64_t value) {
    auto swings = swings_as_they_are(column + " = ?", {value});
    if (!swings) return swings;
    for (const BookSwing& swing : swings.value()) {
        const std::string damage = impossible_words(swing);
        if (damage.empty()) continue;
        const bool was_recorded = swing.origin == SwingOrigin::recording;
        return Problem{
            ProblemKind::bad_input, path().string(),
            fmt::format("the lesson book is damaged: swing {} of lesson {} has {}", swing.number,
                        swing.lesson, damage),
            was_recorded
                ? fmt::format("\"footing lessons analyse {}\" measures it again where its recording is "
                              "there; else take the newest backup",
                              swing.lesson)
                : std::string("take the newest backup")};
    }
    return swings;
}

Result<std::vector<BookSwing>> Book::swings(std::int64_t lesson) {
    return swings_where("w.lesson_id", lesson);
}

Result<BookSwing> Book::swing(std::int64_t lesson, std::int64_t number) {
    const auto all = swings(lesson);
    if (!all) return all.problem();
    for (const BookSwing& swing : all.value()) {
        if (swing.number == number) return swing;
    }
    return Problem{ProblemKind::command_line, fmt::format("lesson {}", lesson),
                   fmt::format("has no swing {}", number),
                   fmt::format("\"footing swings --lesson {}\" lists them", lesson)};
}

Result<std::vector<BookSwing>> Book::swings_of_student(std::int64_t student) {
    return swings_where("l.student_id", student);
}

Outcome Book::write_shot(const BookSwing& swing) {
    if (!swing.shot) return database_.run("DELETE FROM shot WHERE swing_id = ?", {swing.id});
    return database_.run(
        "INSERT INTO shot(swing_id, carry_m, side_m, strike) VALUES(?, ?, ?, ?) "
        "ON CONFLICT(swing_id) DO UPDATE SET carry_m=excluded.carry_m, side_m=excluded.side_m, "
        "strike=excluded.strike",
        {swing.id, cell_of(swing.shot->carry_m), cell_of(swing.shot->side_m),
         swing.shot->strike ? Cell(strike_name(*swing.shot->strike)) : Cell()});
}

Result<std::int64_t> Book::add_swing(const BookSwing& swing) {
    BookSwing added = swing;
    const Outcome all = database_.in_transaction([&]() -> Outcome {
        const auto last =
            database_.number("SELECT max(number) FROM swing WHERE lesson_id = ?", {swing.lesson});
        if (!last) return last.problem();
        std::vector<Cell> cells = swing_cells(swing);
        cells.insert(cells.begin(), {Cell(swing.lesson), Cell(last.value() + 1)});
        if (Outcome done = database_.run(swing_insertion(), cells); !done) return done;
        added.id = database_.last_id();
        return write_shot(added);
    });
    if (!all) return all.problem();
    return added.id;
}

Outcome Book::change_swing(const BookSwing& swing) {
    std::vector<Cell> cells = swing_cells(swing);
    cells.emplace_back(swing.id);
    return database_.in_transaction([&]() -> Outcome {
        if (Outcome done = database_.run(swing_change(), cells); !done) return done;
        return write_shot(swing);
    });
}

Outcome Book::remove_swing(std::int64_t id) {
    return database_.run("DELETE FROM swing WHERE id = ?", {id});
}

Outcome Book::put_found_swings(std::int64_t lesson, const std::vector<BookSwing>& found) {
    auto known = swings_as_they_are("w.lesson_id = ?", {lesson});  // measured again, a damaged one is mended
    if (!known) return known.problem();
    std::vector<BookSwing> all;
    std::vector<bool> is_found(known.value().size(), false);
    for (BookSwing swing : found) {
        swing.lesson = lesson;
        swing.origin = SwingOrigin::recording;
        for (std::size_t i = 0; i < known.value().size(); ++i) {
            if (is_found[i] || !is_same_swing(swing, known.value()[i])) continue;
            is_found[i] = true;
            take_from_coach(swing, known.value()[i]);
            break;
        }
        all.push_back(std::move(swing));
    }
    for (std::size_t i = 0; i < known.value().size(); ++i) {
        const BookSwing& swing = known.value()[i];
        if (is_found[i]) continue;
        if (swing.origin == SwingOrigin::typed || has_coach_or_shot(swing)) {
            all.push_back(swing);
            all.back().number = 0;
        } else if (Outcome done = remove_swing(swing.id); !done) {
            return done;
        }
    }
    // Typed swings have no time; they stay behind those of the recording.
    std::stable_sort(all.begin(), all.end(), [](const BookSwing& a, const BookSwing& b) {
        const auto order = [](const BookSwing& s) { return s.from_s ? middle_s(s) : 1e12; };
        return order(a) < order(b);
    });
    // Those found have the recording's own numbers, which a report of it shows; the others come behind them.
    std::int64_t last = 0;
    for (const BookSwing& swing : all) last = std::max(last, swing.number);
    const bool numbered = std::ranges::all_of(found, [](const BookSwing& swing) { return swing.number > 0; });
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (!numbered) all[i].number = static_cast<std::int64_t>(i) + 1;
        if (all[i].number == 0) all[i].number = ++last;
    }
    // Out of the way first, since no two swings of a lesson may have one number even for a moment.
    if (Outcome done = database_.run("UPDATE swing SET number = -number - 1 WHERE lesson_id = ?", {lesson});
        !done)
        return done;
    for (BookSwing& swing : all) {
        if (swing.id == 0) {
            const auto added = add_swing(swing);
            if (!added) return added.problem();
            swing.id = added.value();
        } else if (Outcome done = change_swing(swing); !done) {
            return done;
        }
        if (Outcome done =
                database_.run("UPDATE swing SET number = ? WHERE id = ?", {swing.number, swing.id});
            !done)
            return done;
    }
    return Done{};
}

Result<std::vector<std::int64_t>> Book::lessons_without_finish() {
    const auto rows = database_.rows(
        "SELECT lesson_id FROM swing WHERE origin = 'recording' GROUP BY lesson_id "
        "HAVING count(came_to_rest) = 0 ORDER BY lesson_id");
    if (!rows) return rows.problem();
    std::vector<std::int64_t> lessons;
    for (const Row& row : rows.value()) lessons.push_back(row.integer(0));
    return lessons;
}

Result<std::size_t> Book::put_finishes(std::int64_t lesson, const std::vector<BookSwing>& found) {
    const auto known =
        swings_as_they_are("w.lesson_id = ?", {lesson});  // measured again, a damaged one is mended
    if (!known) return known.problem();
    std::size_t put = 0;
    for (BookSwing swing : known.value()) {
        const auto same =
            std::ranges::find_if(found, [&](const BookSwing& other) { return is_same_swing(other, swing); });
        if (same == found.end() || !same->finish) continue;
        swing.finish = same->finish;
        if (Outcome done = change_swing(swing); !done) return done.problem();
        ++put;
    }
    return put;
}

}  // namespace footing
