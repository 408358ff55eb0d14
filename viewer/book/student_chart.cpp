#include "viewer/book/student_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "acquisition/frame/count_words.h"

namespace footing {

Result<StudentDistances> distances_of(Book& book, const std::string& who, const DistanceOptions& options,
                                      const std::string& until) {
    const auto student = book.student(who);
    if (!student) return student.problem();
    const auto wedges = book.wedges(student.value().id);
    if (!wedges) return wedges.problem();
    const auto lessons = book.lessons(student.value().id);
    if (!lessons) return lessons.problem();
    const auto swings = book.swings_of_student(student.value().id);
    if (!swings) return swings.problem();

    std::vector<ChartWedge> chart_wedges;
    std::map<std::int64_t, std::size_t> place;
    for (const Wedge& wedge : wedges.value()) {
        place[wedge.id] = chart_wedges.size();
        chart_wedges.push_back({wedge.name, wedge.loft_deg, wedge.bag});
    }
    std::map<std::int64_t, std::int64_t> day;
    for (const LessonLine& line : lessons.value()) {
        if (until.empty() || line.lesson.date <= until)
            day[line.lesson.id] = day_of_date(line.lesson.date).value_or(0);
    }
    std::vector<ChartShot> shots;
    std::map<std::int64_t, ShotPlace> shot_places;
    std::vector<ShotWithoutPlace> without_place;
    for (const BookSwing& swing : swings.value()) {
        if (!swing.shot || !swing.shot->carry_m || swing.kind() == SwingKind::practice) continue;
        if (!day.contains(swing.lesson)) continue;
        if (!swing.wedge || !swing.length) {
            without_place.push_back(
                {{swing.lesson, swing.number}, *swing.shot->carry_m, swing.wedge, swing.length});
            continue;
        }
        shot_places[swing.id] = {swing.lesson, swing.number};
        shots.push_back(
            {place.at(*swing.wedge), *swing.length,
             Carry{swing.id, *swing.shot->carry_m, swing.coach, swing.reason, day[swing.lesson]}});
    }
    return StudentDistances{student.value(), make_distance_chart(std::move(chart_wedges), shots, options),
                            std::move(shot_places), std::move(without_place)};
}

std::string without_place_words(const std::vector<ShotWithoutPlace>& shots) {
    if (shots.empty()) return "";
    constexpr std::size_t most_named = 4;
    std::string which;
    for (std::size_t i = 0; i < std::min(shots.size(), most_named); ++i) {
        const bool same_lesson = i > 0 && shots[i].place.lesson == shots[i - 1].place.lesson;
        which += same_lesson ? fmt::format(", {}", shots[i].place.swing)
                             : fmt::format("{}lesson {}, swing {}", i == 0 ? "" : "; ", shots[i].place.lesson,
                                           shots[i].place.swing);
    }
    if (shots.size() > most_named) which += ", …";
    return fmt::format(
        "{} not in the chart, since wedge or length was not said ({}). Say it: footing swings label {} "
        "--lesson {} --club NAME --length half",
        count_words(shots.size(), "carry is", "carries are"), which, shots.front().place.swing,
        shots.front().place.lesson);
}

}  // namespace footing
