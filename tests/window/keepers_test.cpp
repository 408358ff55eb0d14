#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>
#include <string>
#include <thread>
#include <utility>

#include "acquisition/device/emulated_source.h"
#include "tests/book/book_sample.h"
#include "tests/support/child_process.h"
#include "tests/support/lesson_sample.h"
#include "tests/support/wait_until.h"
#include "viewer/book/student_progress.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/marks_file.h"
#include "viewer/lesson/paced_source.h"
#include "viewer/panels/view_action.h"
#include "viewer/window/book_keeper.h"
#include "viewer/window/book_presence.h"
#include "viewer/window/lesson_keeper.h"

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

constexpr std::int64_t some_day = 20587;  // 2026-05-14
BookQuestion about(std::int64_t student) {
    BookQuestion question;
    question.revision = 1;
    question.student = student;
    return question;
}

/// A lesson of a simulated golfer in real time, 20 ms at a poll.
LessonStart simulated_lesson(const std::string& recording, const Clock& clock) {
    return [recording, &clock](const LessonChoice& choice, std::function<void()> changed) {
        LessonPlan plan;
        if (choice.student) plan.student = choice.student->name;
        plan.out = recording;
        plan.make_sources = [&clock]() -> Result<std::vector<std::unique_ptr<FrameSource>>> {
            std::vector<std::unique_ptr<FrameSource>> sources;
            sources.push_back(std::make_unique<PacedSource>(
                std::make_unique<EmulatedSource>(EmulatedDeviceSettings{}, 0.02), 20ms, clock));
            return sources;
        };
        return Result(std::make_unique<LessonRun>(std::move(plan), clock, std::move(changed)));
    };
}

Result<LessonResult> analyse_plainly(const std::string& path, WorkWatch& watch) {
    AnalysisRequest request;
    request.watch = &watch;
    return analyse_recording(path, request);
}

/// A lesson of somebody in a new book who may be recorded, on plates in the network.
LessonChoice consenting_student(const std::string& book_file) {
    LessonChoice choice;
    choice.student = called("Robin Sample");
    choice.student->consent = Consent::given;
    choice.plates = {{PlatesChoice::Kind::network, "", ""}};
    Book book = new_book(book_file);
    choice.student->id = need(book.add_student(*choice.student, Namesakes::refused));
    return choice;
}

}  // namespace

TEST_CASE("the book answers with progress, and writes consent with its day; undo takes a change back once") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    std::int64_t student = 0;
    {
        Book book = new_book(file);
        student = need(book.add_student(called("Robin Sample"), Namesakes::refused));
        add_lesson(book, student, "2026-04-30");
    }
    BookQuestion question = about(student);
    question.to_write = {{student, {Consent::given, "2026-05-14", {}, {}}}};
    BookFacts facts = ask_book(file, question, some_day);
    CHECK_FALSE(facts.problem.has_value());
    CHECK(facts.today == "2026-05-14");
    REQUIRE(facts.student);
    CHECK(facts.student->consent == Consent::given);
    CHECK(facts.student->consent_date == "2026-05-14");
    REQUIRE(facts.progress);
    CHECK(facts.progress->lessons.size() == 1);

    question = about(student);
    question.undo = BookUndo::newest_change;
    facts = ask_book(file, question, some_day);
    CHECK(facts.student->consent == Consent::not_asked);
    CHECK(facts.notice == "The newest change is taken back (" + facts.students.front().student.name +
                              "): 1 student as before. Ctrl Y makes it again.");
    REQUIRE_FALSE(facts.taken_back.empty());
    {
        BookQuestion again = about(student);
        again.undo = BookUndo::make_again;
        again.make_again = facts.taken_back;
        const BookFacts made = ask_book(file, again, some_day);
        CHECK_FALSE(made.problem.has_value());
        CHECK(made.student->consent == Consent::given);
        CHECK(made.notice.find("1 student changed again.") != std::string::npos);
        CHECK(ask_book(file, again, some_day).problem.has_value());  // not twice
        CHECK(ask_book(file, question, some_day).student->consent ==
              Consent::not_asked);  // and back as any other
    }
    facts = ask_book(file, question, some_day);
    CHECK(facts.notice.find("1 lesson gone again.") != std::string::npos);
    facts = ask_book(file, question, some_day);  // the student, too
    CHECK(facts.students.empty());
    CHECK_FALSE(facts.student.has_value());
    CHECK_FALSE(facts.problem.has_value());
    facts = ask_book(file, question, some_day);
    REQUIRE(facts.problem);
    CHECK(facts.problem->what.find("nothing to take back") != std::string::npos);
}

TEST_CASE("the window takes changes of the book back and makes them again, as far as there are any") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    {
        Book book = new_book(file);
        for (const char* name : {"Robin Sample", "Kim Sample"})
            need(book.add_student(called(name), Namesakes::refused));
    }
    const SystemClock clock;
    BookKeeper keeper(file, {}, clock, nullptr);
    ViewState state;
    state.book.emplace();
    const auto settled = [&] {
        return becomes([&] {
            static_cast<void>(keeper.step(state));
            return state.book->facts && state.book->facts->revision == state.book->revision;
        });
    };
    const auto say = [&](const BookAction& action) {
        state = carry_out(std::move(state), action);
        REQUIRE(settled());
        return state.book->facts->students.size();
    };
    REQUIRE(settled());
    REQUIRE(state.book->facts->students.size() == 2);
    CHECK(say(TakeBack{}) == 2);  // asked once
    CHECK(say(TakeBack{}) == 1);
    CHECK(say(TakeBack{}) == 1);
    CHECK(say(TakeBack{}) == 0);
    CHECK(state.book->to_make_again == 2);
    CHECK(say(DoAgain{}) == 1);
    CHECK(say(DoAgain{}) == 2);
    CHECK(state.book->to_make_again == 0);
    CHECK(state.book->facts->students[1].student.name == "Robin Sample");
    CHECK(say(DoAgain{}) == 2);  // nothing is left
    CHECK_FALSE(state.problem.has_value());
}

TEST_CASE("windows on one book hear of each other, and no longer when the other is gone") {
    const ScratchFolder scratch;
    const std::filesystem::path book = scratch / "a.book";
    const BookPresence mine(book);
    CHECK_FALSE(mine.others_are_there());
    {
        const BookPresence other(book);
        CHECK(mine.others_are_there());
        CHECK(other.others_are_there());
    }
    CHECK_FALSE(mine.others_are_there());
    const BookPresence of_another_book(scratch / "b.book");
    CHECK_FALSE(mine.others_are_there());
    const BookPresence nowhere("/no/such/folder/c.book");
    CHECK_FALSE(nowhere.others_are_there());
}

TEST_CASE("the state of one window tells of the other, both ways") {
    const ScratchFolder scratch;
    const std::filesystem::path file = scratch / "a.book";
    const SystemClock clock;
    const auto with_book = [] {
        ViewState state;
        state.book.emplace();
        return state;
    };
    ViewState first = with_book();
    BookKeeper first_keeper(file, {}, clock, nullptr);
    REQUIRE(becomes([&] { return first_keeper.step(first) && first.book->facts; }));
    CHECK(first.book->open_in == OpenIn::this_window);
    {
        ViewState second = with_book();
        BookKeeper second_keeper(file, {}, clock, nullptr);
        CHECK(becomes([&] {
            static_cast<void>(second_keeper.step(second));
            return second.book->open_in == OpenIn::other_windows_too;
        }));
        CHECK(becomes([&] {
            static_cast<void>(first_keeper.step(first));
            return first.book->open_in == OpenIn::other_windows_too;
        }));
    }
    CHECK(becomes([&] {
        static_cast<void>(first_keeper.step(first));
        return first.book->open_in == OpenIn::this_window;
    }));
}

TEST_CASE("a lesson that begins opens the book at its student, with the wedges that the coach named") {
    const ScratchFolder scratch;
    const SystemClock clock;
    const LessonStart no_plates = [&](const LessonChoice&, std::function<void()> changed) {
        LessonPlan plan;
        plan.out = scratch / "lesson.h5";
        plan.make_sources = []() -> Result<std::vector<std::unique_ptr<FrameSource>>> {
            return Problem{ProblemKind::device_failed, "plates", "there are none", "plug them in"};
        };
        return Result(std::make_unique<LessonRun>(std::move(plan), clock, std::move(changed)));
    };
    LessonDesk usual;
    usual.clubs = {"60°"};
    usual.clubs_from = ClubsFrom::coach;
    LessonKeeper keeper(no_plates, nullptr, {}, nullptr, usual);
    ViewState state;
    state.book.emplace();
    const std::uint64_t before = state.book->revision;
    LessonChoice choice;
    choice.student = called("Robin Sample");
    choice.student->id = 7;
    // Who was not asked yet is asked first, by whatever way the lesson was to begin.
    keeper.begin(choice, state);
    CHECK_FALSE(state.desk);
    CHECK(state.front == Front::book);
    CHECK(state.book->page == BookPage::begin);
    CHECK(state.book->student == 7);
    CHECK(state.notice.find("May Robin Sample be recorded?") != std::string::npos);
    choice.student->consent = Consent::given;
    keeper.begin(choice, state);
    REQUIRE(state.desk);
    CHECK(state.front == Front::swings);
    CHECK(state.desk->clubs == std::vector<std::string>{"60°"});
    CHECK(state.book->student == 7);
    CHECK(state.book->revision > before);  // the book is read anew, about that student
}

TEST_CASE("a no in a lesson under way closes the recording, keeps it, and turns to the page that says so") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    const std::string recording = scratch / "lesson.h5";
    LessonChoice choice = consenting_student(file);
    const SystemClock clock;
    const LessonStart simulated = simulated_lesson(recording, clock);
    LessonKeeper lesson(simulated, analyse_plainly, file, nullptr, {});
    BookKeeper book(file, {}, clock, nullptr);
    ViewState state;
    state.book.emplace();
    lesson.begin(choice, state);
    const auto become = [&](const auto& holds) {
        return becomes([&] {
            static_cast<void>(lesson.step(state));
            static_cast<void>(book.step(state));
            return holds();
        });
    };
    REQUIRE(become([&] { return is_recording(state) && chosen_student(*state.book); }));
    state = carry_out(std::move(state), BookAction{OpenPage{BookPage::begin}});
    state = carry_out(std::move(state), BookAction{SayConsent{Consent::refused}});
    REQUIRE(become([&] { return !state.desk && state.book->to_write.empty(); }));
    CHECK(state.front == Front::book);
    CHECK(state.book->page == BookPage::begin);
    REQUIRE(state.book->refusal);
    CHECK(state.book->refusal->recording == recording);
    CHECK_FALSE(state.lesson);  // nobody is shown it now
    CHECK(std::filesystem::exists(recording));
    CHECK_FALSE(std::filesystem::exists(recording + ".journal"));
    CHECK(ask_book(file, about(choice.student->id), some_day).student->consent == Consent::refused);

    // Nor is a lesson begun with somebody who said no before, by whatever way.
    choice.student->consent = Consent::refused;
    lesson.begin(choice, state);
    CHECK_FALSE(state.desk);
    REQUIRE(state.problem);
    CHECK(state.problem->what.find("does not want to be recorded") != std::string::npos);
}

TEST_CASE("a lesson in which nobody swung is in the book, by what plates it was recorded with") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    LessonChoice choice = consenting_student(file);
    const SystemClock clock;
    const LessonStart simulated = simulated_lesson(scratch / "lesson.h5", clock);
    LessonKeeper lesson(simulated, analyse_plainly, file, nullptr, {});
    ViewState state;
    state.book.emplace();
    lesson.begin(choice, state);
    state.book->student = choice.student->id + 1;  // somebody whom the coach looks up meanwhile
    const auto become = [&](const auto& holds) {
        return becomes([&] {
            static_cast<void>(lesson.step(state));
            return holds();
        });
    };
    REQUIRE(become([&] { return is_recording(state); }));  // before the first swing
    CHECK(is_simulated(*state.desk));                      // by what the device calls itself
    state.desk->wish = LessonWish::stop;
    REQUIRE(become([&] { return !state.desk; }));
    const BookFacts facts = ask_book(file, about(choice.student->id), some_day);
    REQUIRE(facts.lessons.size() == 1);
    CHECK(facts.lessons[0].swings == 0);
    CHECK(facts.lessons[0].recording_file == scratch / "lesson.h5");
    CHECK(facts.lessons[0].device == "simulated golfer, two plates");
    CHECK(state.book->student == choice.student->id);
    REQUIRE(state.lesson);  // left open, under the student's name
    CHECK(state.lesson->facts.student == "Robin Sample");
}

TEST_CASE("the recording that a lesson leaves open keeps the marks beside it when another is given") {
    const ScratchFolder scratch;
    const std::string recording = scratch / "lesson.h5";
    const SystemClock clock;
    const LessonStart simulated = simulated_lesson(recording, clock);
    CoachMarks said;
    said.trigger = TriggerTrust::never_misses;
    const LessonLoader load = [&](const std::string& path, WorkWatch& watch) -> Result<LessonResult> {
        if (const Outcome written = write_marks(path, said); !written) return written.problem();
        return analyse_plainly(path, watch);
    };
    LessonKeeper lesson(simulated, load, {}, nullptr, {});
    ViewState state;
    lesson.begin(LessonChoice{}, state);
    const auto become = [&](const auto& holds) {
        return becomes([&] {
            static_cast<void>(lesson.step(state));
            return holds();
        });
    };
    REQUIRE(become([&] { return is_recording(state); }));
    state.desk->wish = LessonWish::stop;
    REQUIRE(become([&] { return !state.desk; }));
    REQUIRE(state.lesson);
    CHECK(state.marking.marks.trigger == TriggerTrust::never_misses);
    CHECK(state.marking.undo.empty());
}

TEST_CASE("a wedge that was only passed by on the way to another does not stay in the book") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    LessonInBook kept{file, 0, 0, Hand::right, {}};
    {
        Book book = new_book(file);
        kept.student = need(book.add_student(called("Robin Sample"), Namesakes::refused));
        Wedge own;
        own.student = kept.student;
        own.name = "60°";  // the coach's own word, with no swing yet
        need(book.add_wedge(own));
    }
    LiveView live;
    live.file = scratch / "lesson.h5";
    live.uuid = "c0ffee00-0000-4000-8000-000000000001";
    live.zone = "Etc/UTC";
    live.lesson = std::make_shared<const LessonResult>(sample::lesson());
    std::vector<SwingLabel> labels(live.lesson->swings.size());
    const auto names_after = [&](const std::string& club) {
        labels[0].club = club;
        const KeptLesson now = need(keep_in_book(kept, live, labels));
        kept.lesson = now.lesson;
        kept.new_wedges = now.new_wedges;
        std::vector<std::string> names;
        Book book = need(Book::open(file, OpenAs::existing));
        for (const Wedge& wedge : need(book.wedges(kept.student))) names.push_back(wedge.name);
        std::ranges::sort(names);
        return names;
    };
    CHECK(names_after("46°") == std::vector<std::string>{"46°", "60°"});
    CHECK(names_after("50°") == std::vector<std::string>{"50°", "60°"});
    CHECK(names_after("") == std::vector<std::string>{"60°"});
    CHECK(names_after("60°") == std::vector<std::string>{"60°"});
    CHECK(names_after("") == std::vector<std::string>{"60°"});
}

TEST_CASE("what is said of a student is written, and what is not said stays as another program wrote it") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    std::int64_t student = 0;
    {
        Book book = new_book(file);
        student = need(book.add_student(called("Robin Sample"), Namesakes::refused));
        Student changed = need(book.student(student));
        changed.unit = DistanceUnit::metres;
        need(book.change_student(changed, Namesakes::refused));
    }
    BookQuestion question = about(student);
    question.to_write = {{student, {{}, "", Hand::left, {}}}};
    const BookFacts facts = ask_book(file, question, some_day);
    CHECK_FALSE(facts.problem.has_value());
    REQUIRE(facts.student);
    CHECK(facts.student->hand == Hand::left);
    CHECK(facts.student->unit == DistanceUnit::metres);
    CHECK(facts.student->consent == Consent::not_asked);
}
