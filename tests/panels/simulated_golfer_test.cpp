// A lesson on the simulated golfer is nobody's swings: that stands on every screen that it could be missed
// on.
#include <doctest/doctest.h>

#include <chrono>
#include <string>
#include <utility>

#include "acquisition/device/emulated_source.h"
#include "acquisition/frame/simulated_golfer.h"
#include "tests/panels/key_pressing.h"
#include "tests/panels/open_book.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::enter;
using bench::facts_with;
using bench::open_book;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using sample::caught;
using sample::hear;
using sample::running;
using sample::standing;

namespace {

const std::string not_plates = "imulated golfer, not plates";

/// As the lesson's own plates, or the simulated golfer heard on a line.
ViewState lesson_of(LiveView live, const std::string& device) {
    live.device = device;
    return hear(hear({}, running(1.0)), std::move(live));
}

BookFacts with_simulated_lesson(std::size_t lessons) {
    BookFacts facts = facts_with(lessons);
    facts.lessons[0].device = "simulated golfer, two plates";
    facts.lessons[0].swings = 12;
    facts.lessons[0].carries = 5;
    return facts;
}

PlatesChoice::Kind first_plates(const ViewState& state) {
    return chosen_plates(*state.book).at(0).kind;
}

}  // namespace

TEST_CASE("set-up, replay and checklist say all the time that a simulated golfer swings") {
    ScreenBench screen(1280, 720);
    const std::string plates = "two plates (serial number 4711)";
    const std::string heard = "simulated golfer, two plates (serial number 100001)";
    for (const LiveView& live : {running(5.0), standing(10.0, Stance::still, 0.75),
                                 standing(10.0, Stance::moving, 0.6), caught(20.0, 3)}) {
        CHECK(shows(screen.draw(lesson_of(live, heard)), not_plates));
        CHECK_FALSE(shows(screen.draw(lesson_of(live, plates)), not_plates));
        ViewState chosen_here = lesson_of(live, plates);
        chosen_here.desk->golfer = Golfer::simulated;
        CHECK(shows(screen.draw(chosen_here), not_plates));
    }
    const auto lines = checklist(*lesson_of(running(5.0), heard).desk);
    CHECK(lines.front().state == CheckLine::State::missing);  // in red, with a square
    CHECK(lines.front().words.find(not_plates) != std::string::npos);
    CHECK(checklist(*lesson_of(running(5.0), plates).desk).front().state == CheckLine::State::good);
}

TEST_CASE("the simulated golfer's devices are known by the names that they give themselves") {
    EmulatedSource source(EmulatedDeviceSettings{}, 0.02);
    const auto device = source.open(std::chrono::milliseconds(0));
    REQUIRE(device.ok());
    CHECK(is_simulated_golfer(device.value().name));
    CHECK_FALSE(is_simulated_golfer("two plates"));
}

TEST_CASE("who comes after a demo lesson is not taught on the simulated golfer unseen") {
    ScreenBench screen(1280, 720);
    ViewState state = open_book(facts_with(1), BookPage::begin);
    CHECK_FALSE(shows(screen.draw(state), not_plates));
    for (int down = 0; down < 2; ++down) state = press(std::move(state), {.key = NamedKey::down});
    REQUIRE(first_plates(state) == PlatesChoice::Kind::simulated);
    const ScreenDrawn chosen = screen.draw(state);
    CHECK(shows(chosen, not_plates));
    CHECK(shows(chosen, "Enter begins a simulated lesson"));
    // The first of the list is another student than the one before.
    state = press(carry_out(std::move(state), BookAction{TurnToPage{BookPage::students}}), enter);
    CHECK(state.book->page == BookPage::begin);
    CHECK(first_plates(state) == PlatesChoice::Kind::network);
    CHECK_FALSE(shows(screen.draw(state), not_plates));
}

TEST_CASE("pages that make numbers of a student's swings name the lessons that were simulated") {
    ScreenBench screen(1280, 720);
    BookFacts facts = with_simulated_lesson(3);
    for (const BookPage page : {BookPage::distances, BookPage::progress})
        CHECK(shows(screen.draw(open_book(facts, page)), "Lesson 3 was of the simulated golfer"));
    CHECK(shows(screen.draw(open_book(facts, BookPage::lessons)), "simulated golfer"));
    facts.lessons[2].device = "simulated golfer, mat";
    CHECK(shows(screen.draw(open_book(facts, BookPage::progress)), "Lessons 1 and 3 were of the simulated"));
    facts.lessons[0].carries = 0;  // then it has no part in the distances
    CHECK_FALSE(shows(screen.draw(open_book(facts, BookPage::distances)), "simulated"));
    const BookFacts real = facts_with(3);
    for (const BookPage page : {BookPage::lessons, BookPage::distances, BookPage::progress})
        CHECK_FALSE(shows(screen.draw(open_book(real, page)), "simulated"));
}

TEST_CASE("an opened recording of the simulated golfer says so") {
    ScreenBench screen(1280, 720);
    LessonResult lesson = sample::lesson();
    CHECK_FALSE(shows(screen.draw(show_lesson(bench::shared(lesson))), not_plates));
    lesson.facts.device = "simulated golfer, mat (serial number 200001)";
    CHECK(shows(screen.draw(show_lesson(bench::shared(lesson))), not_plates));
}

TEST_CASE("plates that lose frames are named, with what helps, instead of asking to hold still") {
    ScreenBench screen(1280, 720);
    LiveView live = standing(10.0, Stance::moving, 0.7);
    live.recent_loss = 0.02;
    CHECK(shows(screen.draw(hear({}, live)), "hold still"));
    live.recent_loss = 0.041;
    const ScreenDrawn moving = screen.draw(hear({}, live));
    CHECK_FALSE(shows(moving, "hold still"));
    for (const char* words : {"frames are lost", "4 % of the frames do not come", "Use a cable, or a quieter",
                              "4 % of the frames lost"})
        CHECK(shows(moving, words));
    live = standing(10.0, Stance::still, 0.75);
    live.recent_loss = 0.041;
    const ScreenDrawn still = screen.draw(hear({}, live));
    CHECK(shows(still, "inside"));
    CHECK(shows(still, "4 % of the frames do not come"));
    live = running(5.0);
    live.recent_loss = 0.3;
    CHECK(shows(screen.draw(hear({}, live)), "30 % of the frames are lost: a cable"));
}
