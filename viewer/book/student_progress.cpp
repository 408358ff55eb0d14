#include "viewer/book/student_progress.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "analysis/progress/change_words.h"
#include "analysis/swing/swing_set.h"
#include "viewer/book/ruled_swing.h"

namespace footing {

namespace {

std::optional<WeighedShare> weighed(const std::optional<double>& share, const std::optional<double>& u) {
    if (!share) return std::nullopt;
    return WeighedShare{*share, u.value_or(0.0)};
}

/// The cell of every shot that the chart keeps, by the swing's id.
std::map<std::int64_t, std::size_t> cells_of_kept(const DistanceChart& chart) {
    std::map<std::int64_t, std::size_t> cells;
    for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
        for (const JudgedCarry& shot : chart.cells[cell].shots) {
            if (shot.standing == Standing::kept) cells[shot.carry.shot] = cell;
        }
    }
    return cells;
}

/// Of each lesson: shots that were measured and that the coach did not set aside.
std::vector<std::size_t> shots_measured(const std::vector<BookSwing>& swings,
                                        const std::map<std::int64_t, std::size_t>& place) {
    std::vector<std::size_t> measured(place.size(), 0);
    for (const BookSwing& swing : swings) {
        if (swing.kind() == SwingKind::shot && swing.coach != CoachSays::set_aside &&
            (swing.address_share || swing.backswing_s))
            ++measured[place.at(swing.lesson)];
    }
    return measured;
}

/// The lessons with swings that a recording tells of, but nothing of how they ended.
std::vector<std::int64_t> lessons_without_finish(const std::vector<LessonLine>& lessons,
                                                 const std::vector<BookSwing>& swings) {
    std::vector<std::int64_t> without;
    for (const LessonLine& line : lessons) {
        const auto is_recorded = [&](const BookSwing& swing) {
            return swing.lesson == line.lesson.id && swing.origin == SwingOrigin::recording;
        };
        const auto has_finish = [&](const BookSwing& swing) { return is_recorded(swing) && swing.finish; };
        if (std::ranges::any_of(swings, is_recorded) && std::ranges::none_of(swings, has_finish))
            without.push_back(line.lesson.id);
    }
    return without;
}

}  // namespace

std::string finish_not_known_words(const StudentProgress& progress) {
    if (std::ranges::find(progress.without_finish, progress.newest_lesson) == progress.without_finish.end())
        return "";
    return fmt::format(
        "How the swings of lesson {} ended is not known: it came into the book before that kept it. "
        "\"footing "
        "book index FOLDER\" reads it from the recording.",
        progress.newest_lesson);
}

std::vector<std::string> StudentProgress::dates() const {
    std::vector<std::string> all;
    for (const LessonLine& line : lessons) all.push_back(line.lesson.date);
    return all;
}

Result<StudentProgress> progress_of(Book& book, const std::string& who, const ProgressRequest& request) {
    auto distances = distances_of(book, who, request.limits, request.until);
    if (!distances) return distances.problem();
    StudentProgress progress;
    progress.student = std::move(distances.value().student);
    auto lessons = book.lessons(progress.student.id);
    if (!lessons) return lessons.problem();
    progress.lessons = std::move(lessons).value();
    std::reverse(progress.lessons.begin(), progress.lessons.end());
    if (!request.until.empty())
        std::erase_if(progress.lessons,
                      [&](const LessonLine& line) { return line.lesson.date > request.until; });
    auto swings = book.swings_of_student(progress.student.id);
    if (!swings) return swings.problem();

    std::map<std::int64_t, std::size_t> place;
    for (std::size_t i = 0; i < progress.lessons.size(); ++i) place[progress.lessons[i].lesson.id] = i;
    std::erase_if(swings.value(), [&](const BookSwing& swing) { return !place.contains(swing.lesson); });
    const auto cells = cells_of_kept(distances.value().chart);
    const std::vector<std::size_t> measured_shots = shots_measured(swings.value(), place);
    std::vector<ProgressShot> shots;
    std::vector<WeighedShot> weighed_shots;
    std::vector<std::vector<RuledSwing>> ruled_swings(progress.lessons.size());
    for (const BookSwing& swing : swings.value()) {
        if (swing.coach == CoachSays::set_aside) continue;
        if (request.length && swing.length != request.length) continue;
        const std::size_t lesson = place.at(swing.lesson);
        if (swing.kind() != SwingKind::shot && measured_shots[lesson] >= fewest_counted_shots) continue;
        ProgressShot shot;
        shot.lesson = lesson;
        shot.address_share = swing.address_share;
        shot.below_floor_s = swing.below_floor_s;
        ruled_swings[lesson].push_back(ruled_swing(swing, progress.lessons[lesson].lesson, request.sure));
        shot.tempo_ratio = ruled_swings[lesson].back().tempo_ratio;
        shot.rhythm_percent = swing.rhythm_percent;
        WeighedShot weighed_shot;
        weighed_shot.address = weighed(swing.address_share, swing.address_u);
        weighed_shot.lowest = weighed(swing.lowest_share, swing.lowest_u);
        if (const auto& address = ruled_swings[lesson].back().address)
            weighed_shot.verdict = address->verdict;
        if (const auto cell = cells.find(swing.id); cell != cells.end()) {
            shot.cell = weighed_shot.cell = cell->second;
            shot.carry_m = *swing.shot->carry_m;
            weighed_shot.carry_m = shot.carry_m;
        }
        if (swing.shot && swing.shot->strike) {
            weighed_shot.strike =
                *swing.shot->strike == Strike::ball_first ? StrikeQuality::good : StrikeQuality::poor;
        }
        shots.push_back(shot);
        weighed_shots.push_back(weighed_shot);
    }
    progress.without_finish = lessons_without_finish(progress.lessons, swings.value());
    progress.series = progress_of_lessons(shots);
    progress.effects = weight_effects(weighed_shots);
    for (std::size_t i = ruled_swings.size(); i-- > 0 && progress.newest_lesson == 0;) {
        const LessonFindings found = lesson_findings(ruled_swings[i], request.sure);
        if (!found.tell_enough()) continue;
        progress.newest = found;
        progress.newest_lesson = progress.lessons[i].lesson.id;
    }
    progress.advice = next_practice(distances.value().chart, progress.effects, progress.series,
                                    advice_of_lesson(progress.newest, " of the newest lesson"), request.unit);
    return progress;
}

}  // namespace footing
