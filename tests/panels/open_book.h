#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "tests/panels/screen_bench.h"
#include "viewer/book/student_progress.h"

/// The window with a lesson book open, for tests.
namespace footing::bench {

inline StudentProgress progress_of_lessons(std::size_t count) {
    StudentProgress progress;
    std::vector<ProgressShot> shots;
    for (std::size_t lesson = 0; lesson < count; ++lesson) {
        LessonLine line;
        line.lesson.id = static_cast<std::int64_t>(lesson) + 1;
        line.lesson.date = date_of_day(20454 + 7 * static_cast<std::int64_t>(lesson));
        progress.lessons.push_back(line);
        for (std::size_t i = 0; i < 6; ++i) {
            ProgressShot shot;
            shot.lesson = lesson;
            shot.address_share = 0.66 + 0.01 * static_cast<double>(lesson) + 0.002 * static_cast<double>(i);
            shot.tempo_ratio = 2.8 + 0.03 * static_cast<double>(i);
            shots.push_back(shot);
        }
    }
    progress.series = footing::progress_of_lessons(shots);
    progress.advice = {{PracticeRule::weight_outside, "Weight: more onto the lead foot at address."}};
    return progress;
}

/// Two students; the second is chosen and has so many lessons.
inline BookFacts facts_with(std::size_t lessons, const std::string& name = "Robin Sample") {
    BookFacts facts;
    facts.file = "/somewhere/lessons.book";
    facts.revision = 1;
    facts.today = "2026-05-14";
    for (const std::int64_t id : {1, 2}) {
        StudentLine line;
        line.student.id = id;
        line.student.name = id == 2 ? name : "Kim Sample";
        facts.students.push_back(line);
    }
    facts.student = facts.students[1].student;
    auto progress = progress_of_lessons(lessons);
    facts.lessons.assign(progress.lessons.rbegin(), progress.lessons.rend());
    for (LessonLine& line : facts.lessons) line.recording_file = "/somewhere/lesson.h5";
    facts.progress = std::make_shared<const StudentProgress>(std::move(progress));
    using Kind = PlatesChoice::Kind;
    facts.plates = {{Kind::network, "0.0.0.0:9750", "plates on the network"},
                    {Kind::serial, "/dev/ttyACM0", "plates at /dev/ttyACM0"},
                    {Kind::simulated, "", "no plates: a simulated golfer"}};
    return facts;
}

inline ViewState open_book(BookFacts facts, BookPage page) {
    ViewState state;
    state.book.emplace();
    if (facts.student) state.book->student = facts.student->id;
    state.front = Front::book;
    state = carry_out(std::move(state),
                      BookAction{HearBook{std::make_shared<const BookFacts>(std::move(facts))}});
    return carry_out(std::move(state), BookAction{TurnToPage{page}});
}

inline BookFacts empty_book() {
    BookFacts facts = facts_with(0);
    facts.students.clear();
    facts.student.reset();
    facts.progress.reset();
    return facts;
}

}  // namespace footing::bench
