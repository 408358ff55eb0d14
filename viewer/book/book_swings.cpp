#include <fmt/format.h>

#include <algorithm>

#include "viewer/book/book.h"

namespace footing {

namespace {

constexpr const char* swing_columns =
    "w.id, w.lesson_id, w.number, w.origin, w.found_kind, w.from_s, w.to_s, w.strike_s, w.address_share, "
    "w.address_u, "
    "w.lowest_share, w.lowest_u, w.impact_share, w.impact_u, w.backswing_s, w.downswing_s, w.below_floor_s, "
    "w.rhythm_percent, w.wedge_id, w.length, w.coach_kind, w.coach_says, w.reason, w.note, "
    "h.swing_id, h.carry_m, h.side_m, h.strike";

BookSwing swing_from(const Row& row) {
    BookSwing swing;
    swing.id = row.integer(0);
    swing.lesson = row.integer(1);
    swing.number = row.integer(2);
    swing.origin = row.text(3) == "recording" ? SwingOrigin::recording : SwingOrigin::typed;
    swing.found_kind = kind_called(row.text(4)).value_or(SwingKind::unknown);
    std::size_t column = 5;
    for (std::optional<double>* value :
         {&swing.from_s, &swing.to_s, &swing.strike_s, &swing.address_share, &swing.address_u,
          &swing.lowest_share, &swing.lowest_u, &swing.impact_share, &swing.impact_u, &swing.backswing_s,
          &swing.downswing_s, &swing.below_floor_s, &swing.rhythm_percent}) {
        *value = row.maybe_real(column++);
    }
    swing.wedge = row.maybe_integer(18);
    swing.length = length_called(row.text(19));
    swing.coach_kind = kind_called(row.text(20));
    swing.coach = coach_says_called(row.text(21)).value_or(CoachSays::nothing);
    swing.reason = row.text(22);
    swing.note = row.text(23);
    if (row.maybe_integer(24)) {
        swing.shot = Shot{row.maybe_real(25), row.maybe_real(26), strike_called(row.text(27))};
    }
    return swing;
}

/// In the order of the columns of the table, from `origin` on.
std::vector<Cell> cells_of(const BookSwing& swing) {
    return {swing.origin == SwingOrigin::recording ? "recording" : "typed",
            kind_name(swing.found_kind),
            cell_of(swing.from_s),
            cell_of(swing.to_s),
            cell_of(swing.strike_s),
            cell_of(swing.address_share),
            cell_of(swing.address_u),
            cell_of(swing.lowest_share),
            cell_of(swing.lowest_u),
            cell_of(swing.impact_share),
            cell_of(swing.impact_u),
            cell_of(swing.backswing_s),
            cell_of(swing.downswing_s),
            cell_of(swing.below_floor_s),
            cell_of(swing.rhythm_percent),
            cell_of(swing.wedge),
            swing.length ? Cell(length_name(*swing.length)) : Cell(),
            swing.coach_kind ? Cell(kind_name(*swing.coach_kind)) : Cell(),
            coach_says_name(swing.coach),
            swing.reason,
            swing.note};
}

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

Result<std::vector<BookSwing>> Book::swings_where(const std::string& condition, std::int64_t value) {
    const auto rows = database_.rows(fmt::format("SELECT {} FROM swing w JOIN lesson l ON l.id = w.lesson_id "
                                                 "LEFT JOIN shot h ON h.swing_id = w.id "
                                                 "WHERE {} = ? ORDER BY l.date, l.id, w.number",
                                                 swing_columns, condition),
                                     {value});
    if (!rows) return rows.problem();
    std::vector<BookSwing> swings;
    swings.reserve(rows.value().size());
    for (const Row& row : rows.value()) swings.push_back(swing_from(row));
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
        std::vector<Cell> cells = cells_of(swing);
        cells.insert(cells.begin(), {Cell(swing.lesson), Cell(last.value() + 1)});
        if (Outcome done = database_.run(
                "INSERT INTO swing(lesson_id, number, origin, found_kind, from_s, to_s, strike_s, "
                "address_share, "
                "address_u, lowest_share, lowest_u, impact_share, impact_u, backswing_s, downswing_s, "
                "below_floor_s, "
                "rhythm_percent, wedge_id, length, coach_kind, coach_says, reason, note) "
                "VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                cells);
            !done)
            return done;
        added.id = database_.last_id();
        return write_shot(added);
    });
    if (!all) return all.problem();
    return added.id;
}

Outcome Book::change_swing(const BookSwing& swing) {
    std::vector<Cell> cells = cells_of(swing);
    cells.emplace_back(swing.id);
    return database_.in_transaction([&]() -> Outcome {
        if (Outcome done = database_.run(
                "UPDATE swing SET origin=?, found_kind=?, from_s=?, to_s=?, strike_s=?, address_share=?, "
                "address_u=?, "
                "lowest_share=?, lowest_u=?, impact_share=?, impact_u=?, backswing_s=?, downswing_s=?, "
                "below_floor_s=?, "
                "rhythm_percent=?, wedge_id=?, length=?, coach_kind=?, coach_says=?, reason=?, note=? WHERE "
                "id=?",
                cells);
            !done)
            return done;
        return write_shot(swing);
    });
}

Outcome Book::remove_swing(std::int64_t id) {
    return database_.run("DELETE FROM swing WHERE id = ?", {id});
}

Outcome Book::put_found_swings(std::int64_t lesson, const std::vector<BookSwing>& found) {
    auto known = swings(lesson);
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

}  // namespace footing
