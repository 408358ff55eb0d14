#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <utility>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"
#include "viewer/panels/keys.h"

using namespace footing;
using bench::enter;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using bench::type;

// The lists of the lesson book, and what their pages say in every state.

namespace {

/// Two lessons of one day.
BookFacts one_day() {
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.lessons.resize(2);
    for (LessonLine& line : facts.lessons) {
        line.lesson.date = "2026-05-14";
        line.zone = "Europe/Berlin";
        line.lesson.recording_uuid = "u" + std::to_string(line.lesson.id);
    }
    facts.lessons[0].start_utc_ns = 1'778'759'100'000'000'000;  // 2026-05-14 11:45 UTC (date -d @1778759100)
    facts.lessons[1].start_utc_ns = 1'778'746'800'000'000'000;  // 08:20 UTC
    return facts;
}

StudentProgress progress_of(std::size_t lessons, std::size_t shots_each) {
    StudentProgress progress;
    std::vector<ProgressShot> shots;
    for (std::size_t lesson = 0; lesson < lessons; ++lesson) {
        progress.lessons.emplace_back();
        progress.lessons.back().lesson.date = date_of_day(20'520 + static_cast<std::int64_t>(lesson));
        for (std::size_t i = 0; i < shots_each; ++i) {
            ProgressShot shot;
            shot.lesson = lesson;
            shot.tempo_ratio = 2.8 + 0.03 * static_cast<double>(i);
            shots.push_back(shot);
        }
    }
    progress.series = progress_of_lessons(shots);
    return progress;
}

}  // namespace

TEST_CASE("two lessons of one day are told apart by time and number, in the list, in the bin and in words") {
    ScreenBench screen(1280, 720);
    ViewState state = sample::at_book(one_day(), BookPage::lessons);
    const ScreenDrawn drawn = screen.draw(state);
    for (const char* words :
         {"13:45", "10:20", "lesson 9", "lesson 8", "20 swings, 11 carries"})  // CEST: UTC + 2 h
        CHECK(shows(drawn, words));
    state = press(std::move(state), {.key = NamedKey::erase});
    CHECK(state.notice.starts_with("Lesson 9 of 2026-05-14, 13:45 (20 swings) goes into the bin"));
    state.notice.clear();
    CHECK(shows(screen.draw(state), "in the bin: lesson 9 of 2026-05-14, 13:45"));
    LessonLine without_plates;
    without_plates.lesson.id = 3;
    without_plates.lesson.date = "2026-05-14";
    without_plates.swings = 1;
    CHECK(lesson_words(without_plates) == "lesson 3 of 2026-05-14 (1 swing)");
}

TEST_CASE("a lesson without a swing is listed as one") {
    ScreenBench screen(1280, 720);
    BookFacts facts = one_day();
    facts.lessons[1].swings = 0;
    facts.lessons[1].carries = 0;
    const ScreenDrawn drawn = screen.draw(sample::at_book(std::move(facts), BookPage::lessons));
    CHECK(shows(drawn, "no swing"));
    CHECK_FALSE(shows(drawn, ", 0 carries"));
}

TEST_CASE("the foot of the lessons' page names what its keys do there, and Enter says why it does nothing") {
    ScreenBench screen(1280, 720);
    ViewState state = sample::at_book(one_day(), BookPage::lessons);
    CHECK(shows(screen.draw(state), "Enter opens"));
    CHECK_FALSE(shows(screen.draw(state), "C lays it"));
    ViewState taught = sample::in_lesson(sample::Names::usual);
    taught.book = state.book;
    taught.front = Front::book;
    CHECK_FALSE(shows(screen.draw(taught), "Enter opens"));
    CHECK(shows(screen.draw(taught), "C lays it"));
    CHECK(press(taught, enter).notice.find("A lesson is under way") != std::string::npos);
    taught = carry_out(std::move(taught), BookAction{Confirm{}});  // as by a click
    CHECK(taught.opening.empty());
    CHECK(taught.notice.find("A lesson is under way") != std::string::npos);
    ViewState empty = sample::at_book(sample::empty_book(), BookPage::lessons);
    CHECK_FALSE(shows(screen.draw(empty), "↑ ↓ choose"));
    state.book->facts = std::make_shared<const BookFacts>([] {
        BookFacts facts = one_day();
        facts.lessons[0].recording_file.clear();
        return facts;
    }());
    CHECK_FALSE(shows(screen.draw(state), "Enter opens"));
    CHECK(carry_out(state, BookAction{Confirm{}}).notice.find("nothing to open") != std::string::npos);
}

TEST_CASE(
    "progress says what it waits for, with one lesson, with several that know too little, with enough") {
    ScreenBench screen(1280, 720);
    const auto page = [&](std::size_t lessons, std::size_t shots_each) {
        BookFacts facts = sample::book_facts(sample::Names::usual);
        facts.progress = std::make_shared<const StudentProgress>(progress_of(lessons, shots_each));
        return screen.draw(sample::at_book(facts, BookPage::progress));
    };
    CHECK(shows(page(0, 0), "Each lesson adds a point"));
    CHECK(shows(page(1, 6), "One lesson so far. From the second one on"));
    CHECK(shows(page(2, 1), "2 lessons so far, but no measure is known in two of them"));
    CHECK(shows(page(5, 2), "5 lessons so far"));
    CHECK_FALSE(shows(page(2, 6), "lessons so far"));
    CHECK(shows(page(2, 6), "too few lessons to call a change"));
}

TEST_CASE("carries without wedge or length are given them on the page of distances, by keys") {
    ScreenBench screen(1280, 720);
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.lacking = {{9, 3, "2026-05-24", 62.0, {"", "half"}}, {9, 7, "2026-05-24", 71.5, {}}};
    ViewState state = sample::at_book(facts, BookPage::distances);
    ScreenDrawn drawn = screen.draw(state);
    for (const char* words : {"2 carries are not in the chart", "lesson 9, 2026-05-24, swing 3: 62 m",
                              "which wedge?", "half", "1 of 2"})
        CHECK(shows(drawn, words));
    for (const PlacedText& placed : drawn.texts)
        CHECK(placed.text.find("footing swings") == std::string::npos);
    CHECK(shows(screen.draw(carry_out(state, ToggleKeys{})), "its wedge"));
    CHECK(press(state, enter).notice.find("First the wedge") != std::string::npos);
    CHECK(press(state, enter).book->swings_to_write.empty());
    state = type(std::move(state), U"ww");
    CHECK(shows(screen.draw(state), "50°"));
    CHECK(state.book->swings_to_write.empty());  // not before Enter
    ViewState kept = press(state, enter);
    REQUIRE(kept.book->swings_to_write.size() == 1);
    CHECK(kept.book->swings_to_write[0] == SwingToWrite{9, 3, {"50°", "half"}});
    drawn = screen.draw(kept);
    CHECK(shows(drawn, "1 carry is not in the chart"));
    CHECK(shows(drawn, "swing 7: 71.5 m"));
    kept = press(std::move(kept), bench::undo);
    CHECK(kept.notice == "Taken back: wedge and length of lesson 9, swing 3. Ctrl Y does it again.");
    CHECK(press(kept, bench::redo).notice == "Done again: wedge and length of lesson 9, swing 3.");
    CHECK(kept.book->swings_to_write.back() == SwingToWrite{9, 3, {"", "half"}});
    CHECK(shows(screen.draw(kept), "2 carries are not in the chart"));
    // The other row, by itself.
    ViewState other = press(state, {.key = NamedKey::down});
    CHECK(shows(screen.draw(other), "swing 7: 71.5 m"));
    CHECK(shows(screen.draw(other), "which wedge?"));
    // Nothing lacks: nothing is asked, and the keys do nothing.
    const ViewState full = sample::at_book(sample::book_facts(sample::Names::usual), BookPage::distances);
    CHECK_FALSE(shows(screen.draw(full), "not in the chart"));
    CHECK_FALSE(action_for({.character = U'w'}, full).has_value());
}

TEST_CASE("a carry of the lesson under way is mended there, and the page of distances says by which keys") {
    ScreenBench screen(1280, 720);
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.lacking = {{9, 3, "2026-05-24", 62.0, {}}};
    facts.lessons[0].lesson.recording_uuid = "this one";
    ViewState state = sample::in_lesson(sample::Names::usual);
    LiveView live = *state.desk->live;
    live.uuid = "this one";
    state.desk->live = std::make_shared<const LiveView>(live);
    state.book = sample::at_book(facts, BookPage::distances).book;
    state.front = Front::book;
    const ScreenDrawn drawn = screen.draw(state);
    CHECK(shows(drawn, "1 carry is left out in the lesson under way: Esc, ↑ ↓ to it, then W and E"));
    CHECK_FALSE(shows(drawn, "into the chart"));
    CHECK(type(state, U"w").book->fill_in.has_value() == false);
}
