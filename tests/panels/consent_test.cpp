#include <doctest/doctest.h>

#include <memory>
#include <utility>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"

using namespace footing;
using bench::enter;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using bench::undo;

// A student who says no is not recorded, from that moment on.

namespace {

/// The second student of the book is being taught; the page of the next lesson is in front.
ViewState taught_at_book() {
    ViewState state = sample::in_lesson(sample::Names::usual);
    const BookFacts facts = sample::book_facts(sample::Names::usual);
    state.desk->student = facts.student;
    state.book.emplace();
    state.book->student = facts.student->id;
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
    return carry_out(std::move(state), BookAction{OpenPage{BookPage::begin}});
}

ViewState hear_consent(ViewState state, Consent consent) {
    BookFacts facts = *state.book->facts;
    facts.revision = state.book->revision;
    facts.student->consent = consent;
    return carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
}

}  // namespace

TEST_CASE(
    "N in a lesson ends the recording at once, says so in red on every screen, and is kept by the book") {
    ScreenBench screen(1280, 720);
    ViewState state = type(taught_at_book(), U"n");
    CHECK(state.desk->wish == LessonWish::stop);
    REQUIRE(state.book->to_write.size() == 1);
    CHECK(state.book->to_write[0].said.consent == Consent::refused);
    REQUIRE(state.book->refusal);
    CHECK(shows(screen.draw(state), "the recording is being closed"));
    CHECK(shows(screen.draw(state), "STOPPED: does not want to be recorded"));
    const ViewState at_lesson = press(state, {.key = NamedKey::escape});
    CHECK(at_lesson.front == Front::swings);
    CHECK(shows(screen.draw(at_lesson), "STOPPED: does not want to be recorded"));

    // The recording is closed; the lesson's keeper puts it away (keepers_test).
    state.desk.reset();
    state.lesson.reset();
    state.book->refusal->recording = "/home/coach/lessons/7.h5";
    const ScreenDrawn over = screen.draw(state);
    CHECK(shows(over, "Recording has stopped: Robin Sample said no"));
    CHECK(shows(over, "is kept: /home/coach/lessons/7.h5"));
    CHECK(shows(over, "Ctrl 3 and Del"));
    CHECK(shows(over, "no lesson without consent"));
    CHECK(press(state, enter).book->wish == BookWish::none);
    // Only another answer goes on.
    state = type(std::move(state), U"y");
    CHECK_FALSE(state.book->refusal);
    CHECK(press(state, enter).book->wish == BookWish::begin_lesson);
}

TEST_CASE(
    "a no that another program wrote into the book ends the lesson too, and one about others does not") {
    ViewState state = hear_consent(taught_at_book(), Consent::refused);
    CHECK(state.desk->wish == LessonWish::stop);
    CHECK(state.front == Front::book);

    ViewState other = taught_at_book();
    BookFacts facts = *other.book->facts;
    facts.student = facts.students[0].student;
    other.book->student = facts.student->id;
    other = carry_out(std::move(other), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
    other = type(std::move(other), U"n");
    REQUIRE(other.book->to_write.size() == 1);
    CHECK(other.desk->wish == LessonWish::go_on);
    CHECK_FALSE(other.book->refusal);
    // Whose answer it was, and that the lesson goes on: the coach must not take it for the student's on the
    // plates.
    CHECK(
        other.notice ==
        "Written of Alex Example, not of who is taught now: may not be recorded. The lesson of Robin Sample "
        "goes on.");
    other = type(std::move(other), U"y");
    CHECK(other.notice.find("Written of Alex Example, not of who is taught now: may be recorded.") == 0);
    CHECK(type(taught_at_book(), U"n").notice.find("goes on") == std::string::npos);
}

TEST_CASE("a no that is taken back, or somebody else, puts the red bar away; the recording stays ended") {
    const ViewState refused = type(taught_at_book(), U"n");
    const ViewState back = press(refused, undo);
    CHECK_FALSE(back.book->refusal);
    CHECK(back.desk->wish == LessonWish::stop);
    ViewState state = refused;
    state.desk.reset();
    state = press(carry_out(std::move(state), BookAction{OpenPage{BookPage::students}}), enter);
    CHECK_FALSE(state.book->refusal);
}

TEST_CASE("the bin says what goes with a student, and why one who is being taught does not go") {
    ViewState state = carry_out(taught_at_book(), BookAction{TurnToPage{BookPage::students}});
    state = press(std::move(state), {.key = NamedKey::down});
    state = press(std::move(state), {.key = NamedKey::erase});
    CHECK(state.notice.find("is being taught") != std::string::npos);
    CHECK(bin_of(*state.book).empty());
    state = press(press(std::move(state), {.key = NamedKey::down}), {.key = NamedKey::erase});
    CHECK(state.notice.find("Kim Muster goes into the bin with 6 lessons") != std::string::npos);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "of which the recordings stay on the disk"));
    CHECK(press(press(std::move(state), undo), undo).notice.find("Nothing was changed") != std::string::npos);
}

TEST_CASE("the lesson under way does not go into the bin, an earlier one does") {
    ViewState state = carry_out(taught_at_book(), BookAction{TurnToPage{BookPage::lessons}});
    BookFacts facts = *state.book->facts;
    facts.revision = state.book->revision;
    REQUIRE(facts.lessons.size() > 1);
    LiveView live = *state.desk->live;
    live.uuid = "00000000-0000-4000-8000-000000000001";
    state.desk->live = std::make_shared<const LiveView>(live);
    const std::size_t row = state.book->row;
    facts.lessons[listed_lessons(*state.book)[row]].lesson.recording_uuid = live.uuid;
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
    state = press(std::move(state), {.key = NamedKey::erase});
    CHECK(state.notice.find("is under way") != std::string::npos);
    CHECK(bin_of(*state.book).empty());
    state = press(press(std::move(state), {.key = NamedKey::down}), {.key = NamedKey::erase});
    CHECK(state.notice.find("goes into the bin") != std::string::npos);
}

namespace {

/// A student who was not asked yet, on plates of the network.
ViewState not_asked() {
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.student->consent = Consent::not_asked;
    facts.student->consent_date.clear();
    return sample::at_book(facts, BookPage::begin);
}

ViewState nobody_chosen() {
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.student.reset();
    return sample::at_book(facts, BookPage::begin);
}

}  // namespace

TEST_CASE("no lesson begins before somebody was asked: Enter asks, Y answers, Enter begins") {
    ScreenBench screen(1280, 720);
    ViewState state = press(not_asked(), enter);
    CHECK(state.book->wish == BookWish::none);
    CHECK(shows(screen.draw(state), "May Robin Sample be recorded? Y yes, N no"));
    CHECK(shows(screen.draw(state), "first: may they be recorded?"));
    CHECK_FALSE(shows(screen.draw(state), "Enter begins"));
    CHECK_FALSE(shows(screen.draw(carry_out(state, ToggleKeys{})), "begin the lesson"));
    state = type(std::move(state), U"y");
    state.notice.clear();
    CHECK(shows(screen.draw(state), "Enter begins the lesson"));
    CHECK(press(state, enter).book->wish == BookWish::begin_lesson);
    // However long ago it was said: what Ctrl Z takes back is told.
    CHECK(press(state, undo).notice ==
          "Taken back: whether Robin Sample may be recorded. Ctrl Y does it again.");
    CHECK(press(type(state, U"n"), enter).book->wish == BookWish::none);
    // What the book has is asked no more.
    CHECK(
        press(sample::at_book(sample::book_facts(sample::Names::usual), BookPage::begin), enter).book->wish ==
        BookWish::begin_lesson);
    // Nobody is recorded by the simulated golfer.
    CHECK(press(press(not_asked(), {.key = NamedKey::end}), enter).book->wish == BookWish::begin_lesson);
}

TEST_CASE("whoever is taught without a name is asked too, for each lesson") {
    ScreenBench screen(1280, 720);
    ViewState state = press(nobody_chosen(), enter);
    CHECK(state.book->wish == BookWish::none);
    CHECK(shows(screen.draw(state), "May whoever is taught be recorded?"));
    CHECK(shows(screen.draw(state), "not asked yet"));
    const ViewState given = type(state, U"y");
    CHECK(shows(screen.draw(given), "may be recorded in this lesson"));
    CHECK(given.book->to_write.empty());  // nobody whom the book knows
    CHECK(press(given, enter).book->wish == BookWish::begin_lesson);
    const ViewState refused = type(state, U"n");
    CHECK(shows(screen.draw(refused), "no lesson without consent"));
    CHECK(press(refused, enter).book->wish == BookWish::none);
}
