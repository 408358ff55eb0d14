#include <doctest/doctest.h>

#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"
#include "viewer/panels/label_subject.h"

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

// Which swing a key of the coach is about (label_subject.h), as the screen says it.

TEST_CASE(
    "wedge and length said before a swing are those of that swing; after it, in the set-up, of the next") {
    ViewState state = type(hear({}, running(1.0)), U"we");
    state = hear(state, caught(20.0, 1));
    const SwingLabel first{CoachWord::not_said, "46°", "half", std::nullopt};
    CHECK(state.desk->labels[0] == first);
    state = type(press(state, enter), U"we");
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "W and E: the next swing"));
    CHECK(shows(screen.draw(state), "next swing: 50° three-quarter"));
    CHECK(state.desk->labels[0] == first);
    CHECK(state.desk->undo.empty());
    state = hear(state, caught(40.0, 2));
    CHECK(state.desk->labels[1] == SwingLabel{CoachWord::not_said, "50°", "three-quarter", std::nullopt});
}

TEST_CASE("a swing that was caught without wedge takes the one said next, also when its replay is gone") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "no wedge"));
    state = type(press(state, enter), U"www");
    CHECK(shows(screen.draw(state), "W and E: swing 1 and the next"));
    CHECK(state.desk->labels[0].club == "54°");
    state = press(type(state, U"e62"), enter);
    CHECK(state.desk->labels[0] == SwingLabel{CoachWord::shot, "54°", "half", 62.0});
    CHECK_FALSE(state.desk->asked);
    // It has what it needs: what comes now is of the next.
    state = type(state, U"w");
    CHECK(state.desk->labels[0].club == "54°");
    CHECK(state.desk->club == "58°");
    CHECK(shows(screen.draw(state), "W and E: the next swing"));
}

TEST_CASE("a carry without wedge or length is kept, and what it lacks is asked for in any view") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    ScreenBench screen(1280, 720);
    state = press(type(state, U"62"), enter);
    CHECK(state.desk->labels[0].carry_m == 62.0);
    CHECK(state.desk->asked == 0);
    CHECK(shows(screen.draw(state), "which wedge, what length?"));
    state = type(state, U"w");
    CHECK(shows(screen.draw(state), "what length?"));
    state = hear(hear(state, standing(60.0, Stance::moving, 0.6)), standing(70.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::set_up);
    CHECK(shows(screen.draw(state), "what length?"));
    state = type(state, U"ew");
    CHECK(state.desk->labels[0].club == "50°");
    CHECK(shows(screen.draw(state), "is that right?"));
    const ViewState said = press(state, enter);
    CHECK_FALSE(said.desk->asked);
    CHECK(said.desk->showing == Showing::set_up);
    CHECK_FALSE(shows(screen.draw(said), "carry without wedge"));
}

TEST_CASE("a wedge that is left unsaid stays in sight, and the next swing is not taken for that one") {
    ScreenBench screen(1280, 720);
    ViewState left = hear(hear({}, running(1.0)), caught(20.0, 1));
    left = press(press(type(left, U"62"), enter), {.key = NamedKey::escape});
    CHECK_FALSE(left.desk->asked);
    CHECK(left.notice.find("distances leave it out") != std::string::npos);
    left.notice.clear();
    CHECK(shows(screen.draw(left), "carry without wedge or length: swing 1"));
    left = hear(press(type(left, U"70"), enter), caught(40.0, 2));
    CHECK_FALSE(left.desk->asked);
    left = type(left, U"we");
    CHECK(left.desk->labels[0].club.empty());
    CHECK(left.desk->labels[1].club == "46°");
    CHECK(carries_without_wedge(*left.desk) == std::vector<std::size_t>{0});
    // An older swing is corrected by itself; the one at hand comes first.
    left = type(press(left, {.key = NamedKey::up}), U"wwe");
    CHECK(left.desk->labels[0] == SwingLabel{CoachWord::shot, "50°", "half", 70.0});
    CHECK(left.desk->club == "46°");
    CHECK(left.desk->labels[1].club == "46°");
    CHECK(carries_without_wedge(*left.desk).empty());
}

TEST_CASE("a ball that flew was a shot, whatever the load looked like, unless the coach said otherwise") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    REQUIRE(state.lesson->swings[0].kind == SwingKind::practice);
    CHECK(press(type(state, U"62"), enter).desk->labels[0].word == CoachWord::shot);
    state = press(type(state, U"p62"), enter);
    CHECK(state.desk->labels[0].word == CoachWord::practice);
    CHECK_FALSE(state.desk->asked);  // practice is in no chart
}

TEST_CASE("who still says something of a swing keeps its replay") {
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = hear(state, standing(23.5, Stance::moving, 0.6));
    state = type(state, U"w");
    state = hear(state, standing(25.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::replay);
    CHECK(hear(state, standing(28.0, Stance::still, 0.75)).desk->showing == Showing::set_up);
}

TEST_CASE("an empty undo says so, and a switch says what it did, on the lesson's own screens") {
    ScreenBench screen(1280, 720);
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    CHECK(shows(screen.draw(press(state, undo)), "could be undone"));
    CHECK(shows(screen.draw(press(state, redo)), "could be done again"));
    CHECK(shows(screen.draw(type(state, U"m")), "Sounds are off"));
    CHECK(shows(screen.draw(type(hear({}, running(1.0)), U"m")), "Sounds are off"));
}
