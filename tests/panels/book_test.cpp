#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"
#include "viewer/book/student_progress.h"

using namespace footing;
using bench::enter;
using bench::press;
using bench::redo;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using bench::undo;
using sample::hear_plates;
using sample::heard_plates;

namespace {

StudentProgress progress_of_lessons(std::size_t count) {
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
BookFacts facts_with(std::size_t lessons, const std::string& name = "Robin Sample") {
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

ViewState open_book(BookFacts facts, BookPage page) {
    ViewState state;
    state.book.emplace();
    if (facts.student) state.book->student = facts.student->id;
    state.front = Front::book;
    state = carry_out(std::move(state),
                      BookAction{HearBook{std::make_shared<const BookFacts>(std::move(facts))}});
    return carry_out(std::move(state), BookAction{TurnToPage{page}});
}

BookFacts empty_book() {
    BookFacts facts = facts_with(0);
    facts.students.clear();
    facts.student.reset();
    facts.progress.reset();
    return facts;
}

}  // namespace

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

TEST_CASE("Space takes several devices as one; a simulated golfer is not joined") {
    ViewState state = open_book(facts_with(1), BookPage::begin);
    state = press(type(std::move(state), U" "), {.key = NamedKey::down});
    state = type(std::move(state), U" ");
    auto choice = lesson_choice(*state.book);
    REQUIRE(choice);
    REQUIRE(choice->plates.size() == 2);
    CHECK(choice->plates[1].address == "/dev/ttyACM0");
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "on these 2 devices"));
    state = type(press(std::move(state), {.key = NamedKey::down}), U" ");
    CHECK(state.book->joined.size() == 2);
    state = type(press(std::move(state), {.key = NamedKey::up}), U" ");
    CHECK(lesson_choice(*state.book)->plates.size() == 1);
}

TEST_CASE("several lines named at the start are one from the start") {
    BookFacts facts = facts_with(1);
    facts.plates_named = 2;
    CHECK(lesson_choice(*open_book(std::move(facts), BookPage::begin).book)->plates.size() == 2);
}

TEST_CASE("another window on the book is told of in plain words") {
    ScreenBench screen(1280, 720);
    ViewState state = open_book(facts_with(1), BookPage::students);
    CHECK_FALSE(shows(screen.draw(state), "Another window"));
    state.book->open_in = OpenIn::other_windows_too;
    CHECK(shows(screen.draw(state), "Another window has this book open too"));
}

TEST_CASE("plates: Enter listens, what they send stands there, keys ask for check and calibration") {
    ViewState state = press(open_book(facts_with(1), BookPage::plates), enter);
    CHECK(state.book->bench.wish == PlatesWish::listen);
    state = hear_plates(std::move(state), heard_plates());
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(state);
    for (const char* words : {"75.0 kg", "56.2 kg", "1000 frames a second", "nothing lost",
                              "zeroed 3 min ago", "calibrated 2026-04-30"})
        CHECK(shows(drawn, words));
    CHECK(type(state, U"k").book->bench.wish == PlatesWish::check);
    state = type(std::move(state), U"10,20");
    CHECK(typed_masses(state.book->bench.typed) == std::vector<double>{10.0, 20.0});
    CHECK(type(state, U"c").book->bench.wish == PlatesWish::calibrate);
    CHECK(press(state, {.key = NamedKey::backspace}).book->bench.typed == "10,2");
    CHECK(press(state, {.key = NamedKey::down}).book->plates == state.book->plates);  // taken
    state = press(std::move(state), {.key = NamedKey::escape});
    CHECK(state.book->bench.typed.empty());
    CHECK(press(state, {.key = NamedKey::escape}).book->bench.wish == PlatesWish::stop);
    PlatesView working = heard_plates();
    working.task = PlatesTask::calibrating;
    working.steps = 12;
    working.instruction = "Put 20 kg over cell 1 of the left plate.";
    state = hear_plates(std::move(state), working);
    CHECK(shows(screen.draw(state), "step 1 of 12"));
    CHECK(press(state, enter).book->bench.wish == PlatesWish::accept);
    CHECK(press(state, {.key = NamedKey::escape}).book->bench.wish == PlatesWish::only_listen);
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

TEST_CASE("closing during a calibration asks first, as during a lesson") {
    PlatesView working = heard_plates();
    ViewState state = hear_plates(open_book(facts_with(1), BookPage::plates), working);
    CHECK(carry_out(state, CloseWindow{}).life == WindowLife::closing);  // only listening
    working.task = PlatesTask::calibrating;
    working.steps = 12;
    state = carry_out(hear_plates(std::move(state), working), CloseWindow{});
    CHECK(state.life == WindowLife::open);
    CHECK(state.overlay == Overlay::ask_to_close);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "A calibration is under way"));
    CHECK(shows(screen.draw(state), "The readings so far stay"));
    CHECK(press(state, {.key = NamedKey::escape}).overlay == Overlay::none);
    CHECK(press(state, enter).life == WindowLife::closing);
    CHECK(carry_out(state, CloseForSure{}).life == WindowLife::closing);  // a signal does not ask
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

TEST_CASE("masses are typed as growing numbers; anything else is none") {
    CHECK(typed_masses("5 10.5,20") == std::vector<double>{5.0, 10.5, 20.0});
    for (const char* nonsense : {"", " ", "20,10", "0", "1e9", "-3", "nan", "10,,x"})
        CHECK_FALSE(typed_masses(nonsense).has_value());
}

TEST_CASE("what is wrong with plates is told by words and shape") {
    PlatesView view = heard_plates();
    view.heard_rate_hz = 480.0;
    view.losses.lost = 12;
    view.newest_age_s = 0.1;
    view.calibration_state = CalibrationState::nominal;
    const std::vector<HealthLine> lines = plates_health(view);
    CHECK(std::count_if(lines.begin(), lines.end(), [](const HealthLine& line) {
              return line.state == HealthLine::State::look_at_it;
          }) == 3);
    view.newest_age_s = 5.0;
    CHECK(plates_health(view).front().words.find("no frame for 5 s") != std::string::npos);
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
