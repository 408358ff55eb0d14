#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <string>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::enter;
using bench::press;
using bench::redo;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using bench::undo;
using sample::caught;
using sample::hear;
using sample::running;
using sample::standing;

TEST_CASE("a caught swing stands there by itself, and makes way for the next set-up by itself") {
    ViewState state = hear({}, standing(10.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::set_up);
    state = hear(state, caught(20.0, 1));
    CHECK(state.desk->showing == Showing::replay);
    CHECK(state.chosen == 0);
    REQUIRE(state.lesson);
    state = hear(state, standing(30.0, Stance::still, 0.95));  // the finish is held: no new set-up
    CHECK(state.desk->showing == Showing::replay);
    state = hear(state, standing(31.0, Stance::moving, 0.6));
    state = hear(state, standing(32.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::set_up);
    state = hear(state, caught(40.0, 2));
    CHECK(state.desk->showing == Showing::replay);
    CHECK(state.chosen == 1);
}

TEST_CASE("a replay stays for a moment even when the student is quick, and as long as the coach holds it") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = hear(hear(state, standing(21.0, Stance::moving, 0.6)), standing(22.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::replay);
    state = press(state, enter);
    CHECK(state.desk->showing == Showing::set_up);
    state = press(state, enter);
    CHECK(state.desk->showing == Showing::replay);
    state = hear(hear(state, standing(60.0, Stance::moving, 0.6)), standing(70.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::replay);  // held
}

TEST_CASE(
    "one key each: shot, practice, not a swing, wedge, length; the carry is typed; all of it is undone") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 2));
    state = type(state, U"pww");
    state = type(state, U"e61.5");
    CHECK(state.desk->entry == "61.5");
    state = press(state, enter);
    const SwingLabel want{CoachWord::practice, "50°", "half", 61.5};
    CHECK(state.desk->labels[1] == want);
    CHECK(state.desk->labels[0] == SwingLabel{});
    CHECK(state.desk->entry.empty());
    for (int i = 0; i < 5; ++i) state = press(state, undo);
    CHECK(state.desk->labels[1] == SwingLabel{});
    CHECK(press(state, undo).desk->labels == state.desk->labels);  // nothing more to undo
    for (int i = 0; i < 5; ++i) state = press(state, redo);
    CHECK(state.desk->labels[1] == want);
    state = type(state, U"p");
    CHECK(state.desk->labels[1].word == CoachWord::not_said);
    state = type(state, U"x");
    CHECK(state.desk->labels[1].word == CoachWord::not_a_swing);
}

TEST_CASE("a carry belongs to the swing it was begun for, even when the next one is caught meanwhile") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = hear(type(state, U"6"), caught(40.0, 2));
    state = press(type(state, U"2"), enter);
    CHECK(state.desk->labels[0].carry_m == 62.0);
    CHECK_FALSE(state.desk->labels[1].carry_m.has_value());
}

TEST_CASE("a carry that no ball flies is not kept, and Esc drops it") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = press(type(state, U"9999"), enter);
    CHECK(state.desk->entry == "9999");
    CHECK_FALSE(state.desk->labels[0].carry_m.has_value());
    state = press(state, {.key = NamedKey::escape});
    CHECK(state.desk->entry.empty());
    CHECK(state.desk->undo.empty());
    // 1 yd = 0.9144 m exactly (international yard, 1959).
    CHECK(*carry_of_entry("100", DistanceUnit::yards) == doctest::Approx(91.44));
    CHECK(carry_words(91.44, DistanceUnit::yards) == "100 yd");
    for (const char* nonsense : {"", ".", "-3", "0", "1e9", "nan"})
        CHECK_FALSE(carry_of_entry(nonsense, DistanceUnit::metres).has_value());
}

TEST_CASE("a carry beyond any wedge's reach is asked about once, and taken where it is meant") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = press(type(state, U"400"), enter);
    CHECK(state.desk->entry == "400");
    CHECK_FALSE(state.desk->labels[0].carry_m.has_value());
    state = press(type(press(state, {.key = NamedKey::backspace}), U"1"),
                  enter);  // corrected to 401: asked again
    CHECK_FALSE(state.desk->labels[0].carry_m.has_value());
    state = press(state, enter);
    CHECK(state.desk->labels[0].carry_m == 401.0);
    CHECK(state.desk->entry.empty());
    state = press(type(state, U"90"), enter);
    CHECK(state.desk->labels[0].carry_m == 90.0);
}

TEST_CASE("closing while a lesson is recorded asks first") {
    const KeyPress close{.character = U'q', .modifier = Modifier::control};
    ViewState state = press(hear({}, running(1.0)), close);
    CHECK(state.overlay == Overlay::ask_to_close);
    CHECK(state.life == WindowLife::open);
    const ViewState stays = press(state, {.key = NamedKey::escape});
    CHECK(stays.overlay == Overlay::none);
    CHECK(stays.desk->wish == LessonWish::go_on);
    state = press(state, enter);
    CHECK(state.life == WindowLife::closing);
    CHECK(state.desk->wish == LessonWish::stop);
    CHECK(press(ViewState{}, close).life == WindowLife::closing);  // nothing to ask about
}

TEST_CASE("a file that is dropped does not put a lesson away") {
    CHECK(carry_out(hear({}, running(1.0)), OpenFile{"other.h5"}).opening.empty());
}

TEST_CASE("whatever keys are pressed, undone labels come back and nothing breaks") {
    std::mt19937 random(7);
    const std::u32string keys = U"spnwe0123456789., lc?t[]";
    ScreenBench screen(1280, 720);
    for (int round = 0; round < 40; ++round) {
        ViewState state = hear(hear({}, running(1.0)), caught(20.0, 3));
        for (int i = 0; i < 60; ++i) {
            const auto dice = random() % 32;
            if (dice < 20) state = type(state, {keys[random() % keys.size()]});
            if (dice == 20) state = press(state, enter);
            if (dice == 21) state = press(state, undo);
            if (dice == 22) state = press(state, redo);
            if (dice == 23) state = press(state, {.key = NamedKey::backspace});
            if (dice == 24) state = press(state, {.key = NamedKey::up});
            if (dice == 25) state = press(state, {.key = NamedKey::escape});
            if (dice == 26)
                state = hear(state, standing(100.0 + i, i % 2 ? Stance::moving : Stance::still, 0.7));
            if (dice == 27 && state.desk->labels.size() == 3) state = hear(state, caught(60.0, 5));
        }
        static_cast<void>(screen.draw(state));
        state.overlay = Overlay::none;
        const auto labels = state.desk->labels;
        const std::size_t steps = state.desk->undo.size();
        for (std::size_t i = 0; i < steps; ++i) state = press(state, undo);
        CHECK(state.desk->undo.empty());
        for (std::size_t i = 0; i < steps; ++i) state = press(state, redo);
        CHECK(state.desk->labels == labels);
    }
}

TEST_CASE("the set-up view: the share is a third of the window high, the word is told by shape too") {
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(hear({}, standing(10.0, Stance::still, 0.75)));
    const auto figure = std::find_if(drawn.texts.begin(), drawn.texts.end(),
                                     [](const PlacedText& placed) { return placed.text == "75"; });
    REQUIRE(figure != drawn.texts.end());
    CHECK(figure->drawn.height() > 720.0F / 3.0F);
    CHECK(shows(drawn, "inside"));
    CHECK(shows(screen.draw(hear({}, standing(10.0, Stance::still, 0.60))), "more onto"));
    CHECK(shows(screen.draw(hear({}, standing(10.0, Stance::still, 0.90))), "back towards"));
    CHECK(shows(screen.draw(hear({}, standing(10.0, Stance::moving, 0.75))), "hold still"));
}

TEST_CASE("what is missing is said, and a stall is told in words (U2, R9, R18, R19)") {
    ScreenBench screen(1280, 720);
    LiveView live = running(1.0);
    CHECK(shows(screen.draw(hear({}, live)), "724 312 frames"));
    live.progress.newest_age_s = 2.0;
    CHECK(shows(screen.draw(hear({}, live)), "STALLED"));
    live = running(1.0);
    live.zero_age_s.reset();
    live.zero_advice = ZeroAdvice::none_yet;
    live.weight_n.reset();
    live.calibration_state = CalibrationState::nominal;
    const ScreenDrawn drawn = screen.draw(hear({}, live));
    CHECK(shows(drawn, "Leave the plates empty"));
    CHECK(shows(drawn, "weight not seen yet"));
    CHECK(shows(drawn, "not calibrated"));
    live = running(1.0);
    live.weight_difference = -0.04;
    live.progress.problem = Problem{ProblemKind::disk_failed, "x", "the disk is full", ""};
    const ScreenDrawn full = screen.draw(hear({}, live));
    CHECK(shows(full, "weight 4 % less"));
    CHECK(shows(full, "NOT RECORDING"));
    live = running(0.0);
    live.stage = LessonStage::looking_for_plates;
    live.hint = "check the cable";
    CHECK(shows(screen.draw(hear({}, live)), "Looking for the plates"));
}

TEST_CASE("a file that is dropped onto a lesson under way does not put it away, and that is said") {
    const ViewState state = carry_out(hear({}, running(1.0)), OpenFile{"/home/coach/lesson.h5"});
    CHECK(state.opening.empty());
    CHECK(state.desk);
    CHECK(state.notice.find("A lesson is under way") != std::string::npos);
}

TEST_CASE("the weight is told in kilograms, and does not flicker between two ways of saying it") {
    ScreenBench screen(1280, 720);
    LiveView live = running(1.0);                               // 735 N
    CHECK(shows(screen.draw(hear({}, live)), "weight 75 kg"));  // 735 N / 9.80665 m/s2 (ISO 80000-3)
    live.weight_difference = 0.012;
    CHECK(shows(screen.draw(hear({}, live)), "weight agrees, 75 kg"));
    LiveView standing_there = standing(2.0, Stance::moving, 0.7);
    standing_there.weight_difference = 0.012;
    CHECK(shows(screen.draw(hear({}, standing_there)), "weight agrees, 75 kg"));
    for (const PlacedText& placed : screen.draw(hear({}, live)).texts)
        CHECK(placed.text.find("735") == std::string::npos);
}

TEST_CASE("no text of a lesson leaves its place, at any size and stage") {
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}, {3840.0F, 2160.0F}}) {
        ScreenBench screen(width, height);
        LiveView looking = running(0.0);
        looking.stage = LessonStage::looking_for_plates;
        LiveView stalled = running(1.0);
        stalled.progress.newest_age_s = 2.0;
        ViewState replay = hear(hear({}, running(1.0)), caught(20.0, 5));
        const std::vector<ViewState> states{hear({}, standing(10.0, Stance::still, 0.60)),
                                            hear({}, standing(10.0, Stance::still, 1.00)),
                                            hear({}, running(1.0)),
                                            hear({}, looking),
                                            hear({}, stalled),
                                            replay,
                                            type(replay, U"62"),
                                            carry_out(replay, CloseWindow{}),
                                            carry_out(replay, ToggleKeys{})};
        for (std::size_t at = 0; at < states.size(); ++at) {
            const ScreenDrawn drawn = screen.draw(states[at]);
            for (const PlacedText& placed : drawn.texts) {
                CAPTURE(width);
                CAPTURE(at);
                CAPTURE(placed.text);
                CHECK(placed.drawn.inside(drawn.layout.window));
                if (placed.panel != "title") CHECK(placed.cut == Cut::whole);
            }
        }
    }
}
