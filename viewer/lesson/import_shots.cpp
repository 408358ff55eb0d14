#include "viewer/lesson/import_shots.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "viewer/book/shot_match.h"
#include "viewer/book/shot_table.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

class Import {
  public:
    Import(Book& book, const ShotImport& request) : book_(book), request_(request) {}

    Outcome run(std::string_view text) {
        auto table = read_shot_table(text, request_.place, request_.shape);
        if (!table) return table.problem();
        report_.not_matched = std::move(table.value().not_read);
        rows_ = std::move(table.value().rows);
        return book_.in_transaction([&]() -> Outcome {
            for (const auto step : {&Import::read_lesson, &Import::learn_clubs, &Import::leave_out_rows,
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
        const auto swings = book_.swings(request_.lesson);
        if (!swings) return swings.problem();
        for (const BookSwing& swing : swings.value()) {
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

    static std::optional<double> second_of_day(const IndexedRecording& recording) {
        // "2026-11-25 10:20:44 +0100 (Europe/Berlin)"
        const std::string words = wall_time(recording.start_utc_ns, recording.zone);
        if (words.size() < 19) return std::nullopt;
        const auto two = [&](std::size_t at) { return 10.0 * (words[at] - '0') + (words[at + 1] - '0'); };
        return 3600.0 * two(11) + 60.0 * two(14) + two(17) +
               static_cast<double>(recording.start_utc_ns % ns_per_s) * seconds_per_ns;
    }

    Outcome learn_clubs() {
        for (const auto& [word, name] : request_.clubs) {
            const auto wedge = book_.wedge(lesson_.student, name);
            if (!wedge) return wedge.problem();
            if (Outcome done = book_.remember_club(lesson_.student, word, wedge.value().id); !done)
                return done;
        }
        if (request_.one_club.empty()) return Done{};
        const auto wedge = book_.wedge(lesson_.student, request_.one_club);
        if (!wedge) return wedge.problem();
        one_club_ = wedge.value().id;
        return Done{};
    }

    Outcome leave_out_rows() {
        const auto day = day_of_date(lesson_.date);
        std::vector<ShotRow> left;
        for (ShotRow& row : rows_) {
            if (row.day && row.day != day) {
                ++report_.of_other_days;
                continue;
            }
            const auto known = book_.was_imported(lesson_.student, row.row, row.copy);
            if (!known) return known.problem();
            if (known.value()) {
                ++report_.known_already;
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
            wedges_.push_back(wedge);
            left.push_back(std::move(row));
        }
        rows_ = std::move(left);
        return Done{};
    }

    Outcome match() {
        if (rows_.empty()) return Done{};
        if (request_.unrecorded == UnrecordedShots::add) {
            match_.swing_of_row.assign(rows_.size(), std::nullopt);
            return Done{};
        }
        const bool has_times =
            std::all_of(rows_.begin(), rows_.end(),
                        [](const ShotRow& row) { return row.second_of_day.has_value(); }) &&
            std::all_of(swings_.begin(), swings_.end(),
                        [](const BookSwing& swing) { return swing.strike_s.has_value(); });
        if (has_times && start_second_ && !swings_.empty()) return match_times();
        if (rows_.size() == swings_.size()) {
            for (std::size_t i = 0; i < rows_.size(); ++i) match_.swing_of_row.emplace_back(i);
            return Done{};
        }
        return Problem{
            ProblemKind::bad_input, request_.place,
            fmt::format("{} new shots cannot be matched by order with {} swings without a carry in lesson {}",
                        rows_.size(), swings_.size(), request_.lesson),
            "label practice swings, name the swings with --swings, or add them as shots without a recording "
            "with --without-swings"};
    }

    Outcome match_times() {
        std::vector<std::size_t> order(rows_.size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            return *rows_[a].second_of_day < *rows_[b].second_of_day;
        });
        std::vector<double> shots_s;
        std::vector<double> strikes_s;
        for (const std::size_t row : order) shots_s.push_back(*rows_[row].second_of_day);
        for (const BookSwing& swing : swings_) strikes_s.push_back(*start_second_ + *swing.strike_s);
        const MatchByTime found = match_by_time(shots_s, strikes_s);
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
        match_.clock_offset_s = found.match.clock_offset_s;
        report_.clock_offset_s = found.match.clock_offset_s;
        match_.swing_of_row.assign(rows_.size(), std::nullopt);
        for (std::size_t i = 0; i < order.size(); ++i)
            match_.swing_of_row[order[i]] = found.match.swing_of_row[i];
        return Done{};
    }

    Outcome write() {
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const ShotRow& row = rows_[i];
            const auto place = match_.swing_of_row[i];
            if (!place && request_.unrecorded == UnrecordedShots::refuse) {
                report_.not_matched.push_back(fmt::format("line {}: no swing at this time", row.line));
                continue;
            }
            BookSwing swing;
            if (place) swing = swings_[*place];
            if (swing.wedge && wedges_[i] && swing.wedge != wedges_[i]) {
                report_.not_matched.push_back(
                    fmt::format("line {}: swing {} was labelled with another wedge", row.line, swing.number));
                continue;
            }
            if (wedges_[i]) swing.wedge = wedges_[i];
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
            if (Outcome done = book_.note_imported(lesson_.student, row.row, row.copy, id); !done)
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
    std::vector<BookSwing> swings_;  ///< that a row may belong to
    std::optional<std::int64_t> one_club_;
    std::vector<ShotRow> rows_;
    std::vector<std::optional<std::int64_t>> wedges_;  ///< of the rows
    ShotMatch match_;
};

}  // namespace

Result<ShotImportReport> import_shots(Book& book, std::string_view text, const ShotImport& request) {
    Import import(book, request);
    if (Outcome done = import.run(text); !done) return done.problem();
    return import.report();
}

}  // namespace footing
