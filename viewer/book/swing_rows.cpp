#include "viewer/book/swing_rows.h"

#include <fmt/format.h>

#include <array>

#include "analysis/report/hold_end_name.h"

namespace footing {

namespace {

/// All but id, lesson and number, in the order of swing_cells() and swing_from().
constexpr std::array written_columns{
    "origin",        "found_kind",   "from_s",       "to_s",          "strike_s",
    "address_share", "address_u",    "lowest_share", "lowest_u",      "impact_share",
    "impact_u",      "backswing_s",  "downswing_s",  "below_floor_s", "rhythm_percent",
    "came_to_rest",  "finish_share", "finish_u",     "finish_held_s", "finish_held_end",
    "finish_sway_m", "wedge_id",     "length",       "coach_kind",    "coach_says",
    "reason",        "note"};

/// Reads a row's columns one after the other.
class Columns {
  public:
    explicit Columns(const Row& row) : row_(row) {}
    std::int64_t integer() { return row_.integer(next_++); }
    std::optional<std::int64_t> maybe_integer() { return row_.maybe_integer(next_++); }
    std::optional<double> maybe_real() { return row_.maybe_real(next_++); }
    std::string text() { return row_.text(next_++); }

  private:
    const Row& row_;
    std::size_t next_ = 0;
};

std::optional<BookFinish> finish_from(Columns& columns) {
    const std::string came_to_rest = columns.text();
    BookFinish finish;
    finish.came_to_rest = came_to_rest == "yes";
    finish.share = columns.maybe_real();
    finish.u = columns.maybe_real();
    finish.held_s = columns.maybe_real();
    const std::string end = columns.text();
    if (!end.empty()) finish.held_end = end == "left" ? HoldEnd::left : HoldEnd::not_seen;
    finish.sway_m = columns.maybe_real();
    if (came_to_rest.empty()) return std::nullopt;
    return finish;
}

void append_finish(const std::optional<BookFinish>& finish, std::vector<Cell>& cells) {
    const BookFinish none;
    const BookFinish& known = finish ? *finish : none;
    cells.push_back(finish ? Cell(known.came_to_rest ? "yes" : "no") : Cell());
    for (const std::optional<double>& value : {known.share, known.u, known.held_s})
        cells.push_back(cell_of(value));
    cells.push_back(known.held_end ? Cell(hold_end_name(*known.held_end)) : Cell());
    cells.push_back(cell_of(known.sway_m));
}

}  // namespace

std::string swing_selection() {
    return fmt::format("w.id, w.lesson_id, w.number, w.{}, h.swing_id, h.carry_m, h.side_m, h.strike",
                       fmt::join(written_columns, ", w."));
}

BookSwing swing_from(const Row& row) {
    Columns columns(row);
    BookSwing swing;
    swing.id = columns.integer();
    swing.lesson = columns.integer();
    swing.number = columns.integer();
    swing.origin = columns.text() == "recording" ? SwingOrigin::recording : SwingOrigin::typed;
    swing.found_kind = kind_called(columns.text()).value_or(SwingKind::unknown);
    for (std::optional<double>* value :
         {&swing.from_s, &swing.to_s, &swing.strike_s, &swing.address_share, &swing.address_u,
          &swing.lowest_share, &swing.lowest_u, &swing.impact_share, &swing.impact_u, &swing.backswing_s,
          &swing.downswing_s, &swing.below_floor_s, &swing.rhythm_percent}) {
        *value = columns.maybe_real();
    }
    swing.finish = finish_from(columns);
    swing.wedge = columns.maybe_integer();
    swing.length = length_called(columns.text());
    swing.coach_kind = kind_called(columns.text());
    swing.coach = coach_says_called(columns.text()).value_or(CoachSays::nothing);
    swing.reason = columns.text();
    swing.note = columns.text();
    if (columns.maybe_integer()) {
        Shot shot;
        shot.carry_m = columns.maybe_real();
        shot.side_m = columns.maybe_real();
        shot.strike = strike_called(columns.text());
        swing.shot = shot;
    }
    return swing;
}

std::string swing_insertion() {
    std::string places = "?, ?";
    for (std::size_t i = 0; i < written_columns.size(); ++i) places += ", ?";
    return fmt::format("INSERT INTO swing(lesson_id, number, {}) VALUES({})",
                       fmt::join(written_columns, ", "), places);
}

std::string swing_change() {
    return fmt::format("UPDATE swing SET {}=? WHERE id=?", fmt::join(written_columns, "=?, "));
}

std::vector<Cell> swing_cells(const BookSwing& swing) {
    std::vector<Cell> cells{swing.origin == SwingOrigin::recording ? "recording" : "typed",
                            kind_name(swing.found_kind)};
    for (const std::optional<double>& value :
         {swing.from_s, swing.to_s, swing.strike_s, swing.address_share, swing.address_u, swing.lowest_share,
          swing.lowest_u, swing.impact_share, swing.impact_u, swing.backswing_s, swing.downswing_s,
          swing.below_floor_s, swing.rhythm_percent}) {
        cells.push_back(cell_of(value));
    }
    append_finish(swing.finish, cells);
    cells.push_back(cell_of(swing.wedge));
    cells.push_back(swing.length ? Cell(length_name(*swing.length)) : Cell());
    cells.push_back(swing.coach_kind ? Cell(kind_name(*swing.coach_kind)) : Cell());
    cells.emplace_back(coach_says_name(swing.coach));
    cells.emplace_back(swing.reason);
    cells.emplace_back(swing.note);
    return cells;
}

}  // namespace footing
