#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/open_book.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::empty_book;
using bench::enter;
using bench::facts_with;
using bench::open_book;
using bench::press;
using bench::redo;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using bench::undo;

TEST_CASE("control with a digit opens the book at a page, from anywhere") {
    ViewState state = sample::hear({}, sample::running(1.0));
    state.book.emplace();
    for (std::size_t place = 0; place < book_pages.size(); ++place) {
        const KeyPress key{.character = U'1' + static_cast<char32_t>(place), .modifier = Modifier::control};
        state = press(std::move(state), key);
        CHECK(state.front == Front::book);
        CHECK(state.book->page == book_pages[place]);
    }
}

TEST_CASE("an empty book offers the demo lesson: one Enter begins it, and nobody is asked for consent") {
    ScreenBench screen(1280, 720);
    ViewState state = open_book(empty_book(), BookPage::students);
    const ScreenDrawn drawn = screen.draw(state);
    CHECK(shows(drawn, "five steps"));
    CHECK(shows(drawn, "demo lesson"));
    state = press(std::move(state), enter);
    CHECK(state.book->new_student == "Demo student");
    CHECK(state.book->revision == 2);
    BookFacts added = facts_with(0, "Demo student");
    added.revision = 2;
    added.added = 2;
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(added)}});
    CHECK(state.book->page == BookPage::begin);
    const auto choice = lesson_choice(*state.book);
    REQUIRE(choice);
    REQUIRE(choice->plates.size() == 1);
    CHECK(choice->plates[0].kind == PlatesChoice::Kind::simulated);
    CHECK(state.book->wish == BookWish::begin_lesson);
    const ScreenDrawn begun = screen.draw(state);
    CHECK(shows(begun, "nobody has to be asked"));
    CHECK_FALSE(shows(begun, "not asked yet"));
    CHECK_FALSE(shows(begun, "Y  may be recorded"));
    CHECK(type(state, U"n").book->edits.empty());
    // On real plates the same student is somebody who is asked.
    CHECK(shows(screen.draw(press(state, {.key = NamedKey::home})), "not asked yet"));
}

TEST_CASE("a demo that could not be added does not begin with the next student who is") {
    ViewState state = press(open_book(empty_book(), BookPage::students), enter);
    BookFacts refused = empty_book();
    refused.revision = 2;
    refused.problem = Problem{ProblemKind::disk_failed, "x.book", "the disk is full", "free some space"};
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(refused)}});
    BookFacts added = facts_with(0, "Kim Sample");
    added.revision = 3;
    added.added = 2;
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(added)}});
    CHECK(state.book->wish == BookWish::none);
}

TEST_CASE("every page says what it is for while there is nothing on it") {
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(open_book(facts_with(0), BookPage::lessons)), "No lesson yet"));
    CHECK(shows(screen.draw(open_book(facts_with(0), BookPage::distances)), "How far each wedge carries"));
    CHECK(shows(screen.draw(open_book(facts_with(0), BookPage::progress)), "What has changed"));
    CHECK(shows(screen.draw(open_book(facts_with(0), BookPage::plates)), "Are they right?"));
    CHECK(shows(screen.draw(open_book(empty_book(), BookPage::begin)), "Nobody chosen"));
}

TEST_CASE("progress: what to practise stands first, and what is chance is called so") {
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(open_book(facts_with(12), BookPage::progress));
    CHECK(shows(drawn, "What to practise next"));
    CHECK(shows(drawn, "more onto the lead foot"));
    CHECK(shows(drawn, "weight at address"));
    CHECK(shows(drawn, "a real change"));
    CHECK(shows(drawn, "no change beyond chance"));
    CHECK(shows(screen.draw(open_book(facts_with(3), BookPage::progress)), "too few lessons to call"));
}

TEST_CASE("all that a lesson asks to change stands on the page of progress, however much") {
    for (const std::size_t count : {3U, 4U, 5U, 6U}) {
        CAPTURE(count);
        BookFacts facts = facts_with(12);
        StudentProgress progress = *facts.progress;
        progress.advice.clear();
        for (std::size_t i = 0; i < count; ++i) {
            progress.advice.push_back(
                {PracticeRule::onto_trail_foot,
                 "Change " + std::to_string(i) +
                     ": in 3 of 40 shots of the newest lesson the lead share fell under 50 % (lowest 42 ± "
                     "1 %): the weight moved onto the trail foot."});
        }
        facts.progress = std::make_shared<const StudentProgress>(std::move(progress));
        ScreenBench screen(1280, 720);
        const ScreenDrawn drawn = screen.draw(open_book(std::move(facts), BookPage::progress));
        for (std::size_t i = 0; i < count; ++i) CHECK(shows(drawn, "Change " + std::to_string(i)));
    }
}

TEST_CASE("what the page of progress has no room for is reached by the arrows") {
    BookFacts facts = facts_with(12);
    StudentProgress progress = *facts.progress;
    progress.advice.clear();
    for (int i = 0; i < 3; ++i) {
        progress.advice.push_back(
            {PracticeRule::onto_trail_foot,
             "In 3 of 40 shots of the newest lesson the lead share fell under 50 % (lowest "
             "42 ± 1 %): the weight moved onto the trail foot."});
    }
    facts.progress = std::make_shared<const StudentProgress>(std::move(progress));
    ScreenBench screen(1280, 720, 1.45F);  // as large as such a window has room for
    ViewState state = open_book(std::move(facts), BookPage::progress);
    CHECK_FALSE(shows(screen.draw(state), "Strike and band"));
    CHECK(shows(screen.draw(state), "↓ more"));
    for (int i = 0; i < 20; ++i) state = press(std::move(state), {.key = NamedKey::down});
    const ScreenDrawn end = screen.draw(state);
    CHECK(shows(end, "Strike and band"));
    CHECK(shows(end, "↑ back"));
    CHECK_FALSE(shows(end, "What to practise next"));
    for (int i = 0; i < 20; ++i) state = press(std::move(state), {.key = NamedKey::up});
    CHECK(shows(screen.draw(state), "What to practise next"));
    // However high the window is: the last words stand there, or that there are more.
    BookFacts plain = facts_with(12);
    const ViewState first = open_book(plain, BookPage::progress);
    for (int height = 720; height <= 900; height += 3) {
        ScreenBench window(1280, static_cast<float>(height));
        const ScreenDrawn now = window.draw(first);
        CAPTURE(height);
        CHECK(shows(now, "and 10 are needed") != shows(now, "↓ more"));
    }
    // With room for all of it nothing moves.
    ScreenBench large(1920, 1080);
    ViewState small = open_book(facts_with(3), BookPage::progress);
    small = press(std::move(small), {.key = NamedKey::down});
    CHECK(shows(large.draw(small), "What to practise next"));
    CHECK_FALSE(shows(large.draw(small), "↓ more"));
}

TEST_CASE("consent is said with a key, is to be written with its day, and is undone and done again") {
    ViewState state = open_book(facts_with(1), BookPage::begin);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "not asked yet"));
    state = type(std::move(state), U"y");
    REQUIRE(state.book->to_write.size() == 1);
    CHECK(state.book->to_write[0] == StudentToWrite{2, {Consent::given, "2026-05-14", {}, {}}});
    CHECK(state.book->revision == 2);
    BookFacts written = facts_with(1);
    written.revision = 2;
    written.student->consent = Consent::given;
    written.student->consent_date = "2026-05-14";
    state = carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(written)}});
    CHECK(state.book->to_write.empty());
    CHECK(shows(screen.draw(state), "said on 2026-05-14"));
    CHECK(press(state, {.character = U'y'}).book->edits.size() == 1);  // nothing new is no step
    state = press(std::move(state), undo);
    REQUIRE(state.book->to_write.size() == 1);
    CHECK(state.book->to_write[0].said == StudentSaid{Consent::not_asked, "", {}, {}});
    state = press(std::move(state), redo);
    CHECK(state.book->to_write.back().said == StudentSaid{Consent::given, "2026-05-14", {}, {}});
}

TEST_CASE("who does not want to be recorded is not recorded") {
    BookFacts facts = facts_with(1);
    facts.student->consent = Consent::refused;
    ViewState state = open_book(std::move(facts), BookPage::begin);
    CHECK_FALSE(lesson_choice(*state.book).has_value());
    state = press(std::move(state), enter);
    CHECK(state.book->wish == BookWish::none);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "no lesson without consent"));
}

TEST_CASE(
    "who says no is not recorded even before the book has it, nor while the student is still being read") {
    ViewState state = open_book(facts_with(1), BookPage::begin);
    state = press(type(std::move(state), U"n"), enter);
    CHECK(state.book->wish == BookWish::none);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "no lesson without consent"));
    // Facts of an earlier revision come late.
    state =
        carry_out(std::move(state), BookAction{HearBook{std::make_shared<const BookFacts>(facts_with(1))}});
    CHECK_FALSE(lesson_choice(*state.book).has_value());

    BookFacts unread = facts_with(1);
    unread.student.reset();
    ViewState early = open_book(std::move(unread), BookPage::begin);
    early.book->student = 2;
    early = press(type(std::move(early), U"n"), enter);
    CHECK(early.book->wish == BookWish::none);
    CHECK(early.book->to_write.empty());
    early =
        carry_out(std::move(early), BookAction{HearBook{std::make_shared<const BookFacts>(facts_with(1))}});
    REQUIRE(early.book->to_write.size() == 1);
    CHECK(early.book->to_write[0].said.consent == Consent::refused);
    early = press(std::move(early), enter);
    CHECK(early.book->wish == BookWish::none);
}

TEST_CASE("undo takes a student out of the bin, and with nothing left asks the book; not during a lesson") {
    ViewState state = open_book(facts_with(1), BookPage::students);
    state = press(std::move(state), {.key = NamedKey::erase});
    CHECK(bin_of(*state.book).size() == 1);
    CHECK(listed_students(*state.book).size() == 1);
    state = press(std::move(state), undo);
    CHECK(bin_of(*state.book).empty());
    CHECK(state.book->undo == BookUndo::none);
    state = press(std::move(state), redo);
    CHECK(bin_of(*state.book).size() == 1);
    state = press(press(std::move(state), undo), undo);
    CHECK(state.book->undo == BookUndo::asked_once);
    CHECK(state.notice.find("Ctrl Z again") != std::string::npos);
    CHECK(press(press(state, {.key = NamedKey::tab}), undo).book->undo == BookUndo::asked_once);
    state = press(std::move(state), undo);
    CHECK(state.book->undo == BookUndo::newest_change);
    ViewState teaching = open_book(facts_with(1), BookPage::lessons);
    teaching.desk.emplace();
    CHECK(press(std::move(teaching), undo).book->undo == BookUndo::none);
}

TEST_CASE("another window on the book is told of in plain words") {
    ScreenBench screen(1280, 720);
    ViewState state = open_book(facts_with(1), BookPage::students);
    CHECK_FALSE(shows(screen.draw(state), "Another window"));
    state.book->open_in = OpenIn::other_windows_too;
    CHECK(shows(screen.draw(state), "Another window has this book open too"));
}

TEST_CASE(
    "what was taken back of the book itself is made again first, not in a lesson, and not after an edit") {
    ViewState state = open_book(facts_with(1), BookPage::lessons);
    CHECK(press(state, redo).book->undo == BookUndo::none);
    state.book->to_make_again = 1;
    const std::uint64_t before = state.book->revision;
    CHECK(press(state, redo).book->undo == BookUndo::make_again);
    CHECK(press(state, redo).book->revision > before);
    const ViewState edited = press(state, {.key = NamedKey::erase});  // a lesson into the bin
    CHECK(edited.book->to_make_again == 0);
    CHECK(press(edited, redo).book->undo == BookUndo::none);
    ViewState in_lesson = sample::hear(state, sample::running(1.0));
    CHECK(press(in_lesson, redo).book->undo == BookUndo::none);
}

TEST_CASE("a lesson offers the student's own wedges once the book is read, unless the coach named others") {
    BookFacts facts = facts_with(1);
    for (const char* name : {"48°", "old 52°", "56°"}) {
        Wedge wedge;
        wedge.student = 2;
        wedge.name = name;
        wedge.bag = std::string(name).starts_with("old") ? Bag::out : Bag::in;
        wedge.loft_deg = 48.0;
        facts.wedges.push_back(wedge);
    }
    ViewState state = sample::hear({}, sample::running(1.0));
    state.desk->student = facts.student;
    state.book.emplace();
    state.book->student = facts.student->id;
    const auto told = [&](ViewState before) {
        return carry_out(std::move(before), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
    };
    CHECK(told(state).desk->clubs == std::vector<std::string>{"48°", "56°"});
    // Those that came into the book by W alone do not narrow what W goes through.
    const std::vector<Wedge> with_lofts = facts.wedges;
    for (Wedge& wedge : facts.wedges) wedge.loft_deg.reset();
    CHECK(told(state).desk->clubs == std::vector<std::string>{"46°", "50°", "54°", "58°", "48°", "56°"});
    facts.wedges = with_lofts;
    state.desk->clubs = {"60°"};
    state.desk->clubs_from = ClubsFrom::coach;
    CHECK(told(state).desk->clubs == std::vector<std::string>{"60°"});
}

TEST_CASE("no text of the book leaves its place, at any size, with long names and without data") {
    std::string long_name = "Maximiliane-Alexandra";
    while (long_name.size() < 300) long_name += " von Unterhohenwaldstetten";
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}, {3840.0F, 2160.0F}}) {
        ScreenBench screen(width, height);
        for (const BookFacts& facts :
             {empty_book(), facts_with(0), facts_with(12), facts_with(12, long_name)}) {
            for (const BookPage page : book_pages) {
                ViewState state = open_book(facts, page);
                state.book->open_in = OpenIn::other_windows_too;
                const ScreenDrawn drawn = screen.draw(state);
                for (const PlacedText& placed : drawn.texts) {
                    CAPTURE(width);
                    CAPTURE(page_name(page));
                    CAPTURE(placed.text);
                    CHECK(placed.drawn.inside(drawn.layout.window));
                }
            }
        }
    }
}

TEST_CASE(
    "which way a new student plays and in what carries are told is said at the page of the next lesson") {
    ViewState state = open_book(facts_with(1), BookPage::begin);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "right-handed: the left foot leads"));
    CHECK(shows(screen.draw(state), "carries in yards"));
    state = type(std::move(state), U"hu");
    CHECK(shows(screen.draw(state), "left-handed: the right foot leads"));
    CHECK(shows(screen.draw(state), "carries in metres"));
    REQUIRE(state.book->to_write.size() == 2);
    CHECK(state.book->to_write.back().said == StudentSaid{{}, "", {}, DistanceUnit::metres});
    const auto choice = lesson_choice(*state.book);
    REQUIRE(choice);
    CHECK(choice->student->hand == Hand::left);
    CHECK(choice->student->unit == DistanceUnit::metres);
    // Consent leaves it as it is, and each is undone by itself.
    state = type(std::move(state), U"y");
    CHECK(lesson_choice(*state.book)->student->hand == Hand::left);
    state = press(press(std::move(state), undo), undo);
    CHECK(shows(screen.draw(state), "carries in yards"));
    CHECK(shows(screen.draw(state), "left-handed"));
    CHECK(shows(screen.draw(press(state, undo)), "right-handed"));
    // Not while a lesson is read by it.
    ViewState taught = sample::hear(open_book(facts_with(1), BookPage::begin), sample::running(1.0));
    taught.desk->student = taught.book->facts->student;
    CHECK(type(std::move(taught), U"hu").book->edits.empty());
}
