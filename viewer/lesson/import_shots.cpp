#include "viewer/lesson/import_shots.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "analysis/report/number_words.h"
#include "viewer/book/shot_match.h"
#include "viewer/book/shot_table.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

/// A row that is not in the book yet.
struct NewRow {
    ShotRow row;
    std::optional<std::int64_t> wedge;
};

bool is_same(const std::optional<double>& a, const std::optional<double>& b) {
    constexpr double tolerance_m = 1e-6;
    return a.has_value() == b.has_value() && (!a || std::abs(*a - *b) < tolerance_m);
}

std::string reading_words(const std::optional<double>& carry_m, const std::optional<double>& side_m) {
    std::string words = fmt::format("carry {:.1f} m", carry_m.value_or(0.0));
    if (side_m) words += fmt::format(", side {:.1f} m", *side_m);
    return words;
}

/// Seconds since local midnight.
std::optional<double> second_of_day(const IndexedRecording& recording) {
    // "2026-11-25 10:20:44 +0100 (Europe/Berlin)"
    const std::string words = wall_time(recording.start_utc_ns, recording.zone);
    if (words.size() < 19) return std::nullopt;
    const auto two = [&](std::size_t at) { return 10.0 * (words[at] - '0') + (words[at + 1] - '0'); };
    return 3600.0 * two(11) + 60.0 * two(14) + two(17) +
           static_cast<double>(recording.start_utc_ns % ns_per_s) * seconds_per_ns;
}

class Import {
  public:
    Import(Book& book, const ShotImport& request) : book_(book), request_(request) {}

    Outcome run(std::string_view text) {
        auto table = read_shot_table(text, request_.place, request_.shape, request_.far);
        if (!table) return table.problem();
        if (table.value().rows.empty()) {
            return Problem{ProblemKind::bad_input, request_.place,
                           table.value().not_read.empty()
                               ? "the table has no line with a shot"
                               : fmt::format("none of its {} is a shot; {}",
                                             count_words(table.value().not_read.size(), "line", "lines"),
                                             table.value().not_read.front()),
                           "check the columns and their units"};
        }
        report_.not_matched = std::move(table.value().not_read);
        read_ = std::move(table.value().rows);
        return book_.in_transaction([&]() -> Outcome {
            for (const auto step : {&Import::read_lesson, &Import::learn_clubs, &Import::sort_out_rows,
                                    &Import::match, &Import::write}) {
                if (Outcome done = (this->*step)(); !done) return done;
            }
            return book_.remember_shape(request_.shape);
        });
    }

    [[nodiscard]] ShotImportReport report() const { return report_; }

  private:
    Outcome read_lesson() {
        const auto line = book_.lesson(request_.lesson);
        if (!line) return line.problem();
        lesson_ = line.value().lesson;
        auto swings = book_.swings_of_student(lesson_.student);
        if (!swings) return swings.problem();
        all_swings_ = std::move(swings).value();
        for (const BookSwing& swing : all_swings_) {
            if (swing.lesson != request_.lesson) continue;
            const bool is_named = std::find(request_.swings.begin(), request_.swings.end(), swing.number) !=
                                  request_.swings.end();
            if (!request_.swings.empty() ? !is_named : swing.kind() == SwingKind::practice) continue;
            if (swing.shot && swing.shot->carry_m) continue;
            swings_.push_back(swing);
        }
        const auto recordings = book_.recordings();
        if (!recordings) return recordings.problem();
        for (const IndexedRecording& recording : recordings.value()) {
            if (recording.uuid == lesson_.recording_uuid) start_second_ = second_of_day(recording);
        }
        return Done{};
    }

    Outcome learn_clubs() {
        for (const auto& [word, name] : request_.clubs) {
            const auto wedge = book_.wedge(lesson_.student, name);
            if (!wedge) return wedge.problem();
            if (Outcome done = book_.remember_club(lesson_.student, word, wedge.value().id); !done)
                return done;
        }
        const auto wedge = book_.wedge_if_named(lesson_.student, request_.one_club);
        if (!wedge) return wedge.problem();
        one_club_ = wedge.value();
        return Done{};
    }

    /// Leaves out what is of other days or in the book already.
    Outcome sort_out_rows() {
        const auto day = day_of_date(lesson_.date);
        for (ShotRow& row : read_) {
            if (row.day && row.day != day) {
                ++report_.of_other_days;
                continue;
            }
            const auto known = book_.imported_line(lesson_.student, row.row, row.copy,
                                                   row.day ? std::nullopt : std::optional(request_.lesson));
            if (!known) return known.problem();
            if (known.value()) {
                if (Outcome done = take_known(row, *known.value()); !done) return done;
                continue;
            }
            std::optional<std::int64_t> wedge = one_club_;
            if (!row.club.empty() && !wedge) {
                const auto found = book_.club_called(lesson_.student, row.club);
                if (!found) return found.problem();
                wedge = found.value();
                if (!wedge) {
                    report_.not_matched.push_back(fmt::format(
                        "line {}: the student has no wedge \"{}\"; say which one with --club \"{}=NAME\"",
                        row.line, row.club, row.club));
                    continue;
                }
            }
            rows_.push_back({std::move(row), wedge});
        }
        has_times_ = std::all_of(rows_.begin(), rows_.end(),
                                 [](const NewRow& one) { return one.row.second_of_day.has_value(); });
        if (has_times_) {
            std::stable_sort(rows_.begin(), rows_.end(), [](const NewRow& a, const NewRow& b) {
                return *a.row.second_of_day < *b.row.second_of_day;
            });
        }
        return Done{};
    }

    Outcome take_known(const ShotRow& row, const ImportedLine& known) {
        ++report_.known_already;
        const auto swing = std::find_if(all_swings_.begin(), all_swings_.end(),
                                        [&](const BookSwing& one) { return one.id == known.swing; });
        if (swing == all_swings_.end()) return Done{};
        if (swing->lesson == request_.lesson && row.second_of_day && swing->strike_s && start_second_)
            known_offsets_s_.push_back(*row.second_of_day - *start_second_ - *swing->strike_s);
        if (!known.carry_m || (is_same(known.carry_m, row.carry_m) && is_same(known.side_m, row.side_m)))
            return Done{};
        if (request_.other_reading == OtherReading::refuse) {
            return Problem{
                ProblemKind::bad_input, request_.place,
                fmt::format("line {} was taken as {} and would now be {}: columns or units are not as before",
                            row.line, reading_words(known.carry_m, known.side_m),
                            reading_words(row.carry_m, row.side_m)),
                "leave them out to read it as before, or add --replace to correct what was taken"};
        }
        if (!swing->shot || !is_same(swing->shot->carry_m, known.carry_m) ||
            !is_same(swing->shot->side_m, known.side_m)) {
            report_.not_matched.push_back(
                fmt::format("line {}: swing {} of lesson {} was changed by hand since, and stays so",
                            row.line, swing->number, swing->lesson));
            return Done{};
        }
        swing->shot->carry_m = row.carry_m;
        swing->shot->side_m = row.side_m;
        if (Outcome done = book_.change_swing(*swing); !done) return done;
        ++report_.replaced;
        return book_.note_imported({lesson_.student, row.row, row.copy, swing->id, row.carry_m, row.side_m});
    }

    /// How far the device's clock is off as the rows taken before tell it; nothing when they contradict each
    /// other.
    [[nodiscard]] std::optional<double> known_offset_s() const {
        constexpr double widest_s = 6.0;
        if (known_offsets_s_.empty()) return std::nullopt;
        const auto [least, most] = std::minmax_element(known_offsets_s_.begin(), known_offsets_s_.end());
        if (*most - *least > widest_s) return std::nullopt;
        return std::accumulate(known_offsets_s_.begin(), known_offsets_s_.end(), 0.0) /
               static_cast<double>(known_offsets_s_.size());
    }

    Outcome match() {
        if (rows_.empty()) return Done{};
        if (request_.unrecorded == UnrecordedShots::add) {
            swing_of_row_.assign(rows_.size(), std::nullopt);
            return Done{};
        }
        const bool has_strikes = std::all_of(swings_.begin(), swings_.end(), [](const BookSwing& swing) {
            return swing.strike_s.has_value();
        });
        const auto offset_s = known_offset_s();
        if (has_times_ && has_strikes && start_second_ && (offset_s || !swings_.empty()))
            return match_times(offset_s);
        if (rows_.size() == swings_.size()) {
            report_.matched_by = has_times_ ? MatchedBy::order_of_times : MatchedBy::order_of_lines;
            for (std::size_t i = 0; i < rows_.size(); ++i) swing_of_row_.emplace_back(i);
            return Done{};
        }
        return Problem{
            ProblemKind::bad_input, request_.place,
            fmt::format("{} cannot be matched by order with {} without a carry in lesson {}",
                        count_words(rows_.size(), "new shot", "new shots"),
                        count_words(swings_.size(), "swing", "swings"), request_.lesson),
            "label practice swings, name the swings with --swings, or add them as shots without a recording "
            "with --without-swings"};
    }

    Outcome match_times(const std::optional<double>& offset_s) {
        std::vector<double> shots_s;
        std::vector<double> strikes_s;
        for (const NewRow& one : rows_) shots_s.push_back(*one.row.second_of_day);
        for (const BookSwing& swing : swings_) strikes_s.push_back(*start_second_ + *swing.strike_s);
        MatchByTime found;
        if (offset_s) {
            found.match = match_at(shots_s, strikes_s, *offset_s);
        } else {
            found = match_by_time(shots_s, strikes_s);
        }
        if (found.failure != MatchFailure::none) {
            return Problem{
                ProblemKind::bad_input, request_.place,
                found.failure == MatchFailure::ambiguous
                    ? fmt::format("the times of its shots fit the swings of lesson {} in more than one way",
                                  request_.lesson)
                    : fmt::format("the times of its shots do not fit those of the swings of lesson {}",
                                  request_.lesson),
                "name the swings with --swings, or label the practice swings"};
        }
        report_.matched_by = MatchedBy::time;
        report_.clock_offset_s = found.match.clock_offset_s;
        swing_of_row_ = found.match.swing_of_row;
        return Done{};
    }

    /// Why no swing is free for this row.
    [[nodiscard]] std::string unmatched_words(const ShotRow& row) const {
        constexpr double same_time_s = 3.0;
        for (const BookSwing& swing : all_swings_) {
            if (swing.lesson != request_.lesson || !swing.shot || !swing.shot->carry_m || !swing.strike_s ||
                !row.second_of_day || !start_second_)
                continue;
            const double apart_s =
                *row.second_of_day - *start_second_ - *swing.strike_s - report_.clock_offset_s.value_or(0.0);
            if (std::abs(apart_s) <= same_time_s) {
                return fmt::format("line {}: swing {} at this time has a carry already ({:.1f} m)", row.line,
                                   swing.number, *swing.shot->carry_m);
            }
        }
        return fmt::format("line {}: no swing at this time", row.line);
    }

    Outcome write() {
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const auto& [row, wedge] = rows_[i];
            const auto place = swing_of_row_[i];
            if (!place && request_.unrecorded == UnrecordedShots::refuse) {
                report_.not_matched.push_back(unmatched_words(row));
                continue;
            }
            BookSwing swing;
            if (place) swing = swings_[*place];
            if (swing.wedge && wedge && swing.wedge != wedge) {
                report_.not_matched.push_back(
                    fmt::format("line {}: swing {} was labelled with another wedge", row.line, swing.number));
                continue;
            }
            if (wedge) swing.wedge = wedge;
            if (!swing.length) swing.length = request_.length;
            Shot shot = swing.shot.value_or(Shot{});
            shot.carry_m = row.carry_m;
            if (row.side_m) shot.side_m = row.side_m;
            swing.shot = shot;
            std::int64_t id = swing.id;
            if (place) {
                if (Outcome done = book_.change_swing(swing); !done) return done;
            } else {
                swing.lesson = request_.lesson;
                const auto added = book_.add_swing(swing);
                if (!added) return added.problem();
                id = added.value();
            }
            if (Outcome done =
                    book_.note_imported({lesson_.student, row.row, row.copy, id, row.carry_m, row.side_m});
                !done)
                return done;
            ++report_.taken;
            if (!swing.length || !swing.wedge) ++report_.without_length;
        }
        return Done{};
    }

    Book& book_;
    const ShotImport& request_;
    ShotImportReport report_;
    Lesson lesson_;
    std::optional<double> start_second_;
    std::vector<BookSwing> all_swings_;  ///< of the student
    std::vector<BookSwing> swings_;      ///< that a row may belong to
    std::optional<std::int64_t> one_club_;
    std::vector<ShotRow> read_;
    std::vector<NewRow> rows_;  ///< by time where all of them tell it
    bool has_times_ = false;
    std::vector<double> known_offsets_s_;
    std::vector<std::optional<std::size_t>> swing_of_row_;
};

}  // namespace

Result<ShotImportReport> import_shots(Book& book, std::string_view text, const ShotImport& request) {
    Import import(book, request);
    if (Outcome done = import.run(text); !done) return done.problem();
    return import.report();
}

}  // namespace footing
