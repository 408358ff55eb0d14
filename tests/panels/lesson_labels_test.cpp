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
    "carries stand in the list of an opened recording too, and stay by their swings when one is left out") {
    ScreenBench screen(1280, 720);
    ViewState state = bench::open_sample();
    CHECK_FALSE(shows(screen.draw(state), "62 m"));
    state.said.labels.resize(state.lesson->swings.size());
    state.said.labels[1] = {CoachWord::shot, "54°", "half", 62.0};
    CHECK(shows(screen.draw(state), "62 m"));
    LessonResult without_first = *state.lesson;
    without_first.swings.erase(without_first.swings.begin());
    state = show_again(bench::shared(std::move(without_first)), std::move(state));
    REQUIRE(state.said.labels.size() == state.lesson->swings.size());
    CHECK(state.said.labels[0].carry_m == 62.0);
    CHECK(shows(screen.draw(state), "62 m"));
    CHECK(bench::open_sample().said.labels.empty());
}

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

TEST_CASE("P or X on a swing with a carry says that the distances lose it, and how to take that back") {
    ScreenBench screen(1280, 720);
    ViewState state = press(type(type(hear({}, running(1.0)), U"we"), U""), enter);
    state = press(type(hear(state, caught(20.0, 1)), U"62"), enter);
    CHECK_FALSE(shows(screen.draw(state), "left out"));
    for (const auto& [key, called] :
         {std::pair{U"p", "Swing 1 is practice"}, {U"x", "Swing 1 is no swing"}}) {
        const ViewState said = type(state, key);
        CHECK(said.desk->labels[0].carry_m == 62.0);
        const ScreenDrawn drawn = screen.draw(said);
        CHECK(shows(drawn, called));
        CHECK(shows(drawn, "62 m, is left out of the distances"));
        CHECK(shows(drawn, "Ctrl Z"));
        CHECK(shows(drawn, "(62 m)"));  // in the list
        ViewState later = said;
        later.notice.clear();
        CHECK(shows(screen.draw(later), "carry 62 m (left out)"));
        ViewState again = press(later, undo);
        CHECK(again.desk->labels == state.desk->labels);
        CHECK_FALSE(shows(screen.draw(again), "left out"));
    }
    // The other way round: a carry typed for what is called practice.
    ViewState practice = type(hear(hear({}, running(1.0)), caught(20.0, 1)), U"p");
    CHECK(practice.notice.empty());
    practice = press(type(practice, U"62"), enter);
    CHECK(practice.notice.find("is left out of the distances") != std::string::npos);
    CHECK(practice.notice.find("S makes it a shot") != std::string::npos);
}

TEST_CASE("all numbers call a swing what the coach calls it") {
    ScreenBench screen(1280, 720);
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    state = type(type(state, U"s"), U"n");
    CHECK(shows(screen.draw(state), "swing 1, shot"));
    CHECK(shows(screen.draw(state), "shot, as you said"));
    state = type(type(type(state, U"n"), U"p"), U"n");
    CHECK(shows(screen.draw(state), "swing 1, practice"));
    CHECK(shows(screen.draw(state), "practice, as you said"));
    CHECK_FALSE(shows(screen.draw(state), "shot, as you said"));
}

TEST_CASE(
    "the swing that the coach turned to stays when the next is caught, and its carry goes to no other") {
    ScreenBench screen(1280, 720);
    const ViewState two = hear(hear({}, running(1.0)), caught(20.0, 2));
    ViewState state = press(two, {.key = NamedKey::up});
    CHECK(shows(screen.draw(state), "stays until Enter"));
    state = hear(hear(state, standing(40.0, Stance::moving, 0.6)), standing(50.0, Stance::still, 0.75));
    CHECK(state.desk->showing == Showing::replay);
    state = hear(state, caught(60.0, 3));
    CHECK(state.chosen == 0);
    CHECK(state.desk->labels.size() == 3);
    CHECK(shows(screen.draw(state), "swing 3 was caught: Enter shows it"));
    state = hear(press(type(state, U"62"), enter), caught(80.0, 4));
    CHECK(state.desk->asked == 0);  // its wedge is still asked for
    state = press(type(state, U"we"), enter);
    CHECK(state.desk->labels[0] == SwingLabel{CoachWord::shot, "46°", "half", 62.0});
    for (std::size_t later : {1U, 2U, 3U}) CHECK(state.desk->labels[later] == SwingLabel{});
    CHECK(state.chosen == 0);
    CHECK(shows(screen.draw(state), "2 swings were caught: Enter shows the last"));
    state = press(state, enter);
    CHECK(state.chosen == 3);
    CHECK(state.desk->showing == Showing::replay);
    CHECK(state.desk->turning == Turning::by_itself);
    CHECK(state.desk->unseen == 0);
    state = press(state, enter);
    CHECK(state.desk->showing == Showing::set_up);
    // A replay that nobody turned to makes way, as ever.
    CHECK(hear(two, caught(60.0, 3)).chosen == 2);
    // From the set-up: held by Enter.
    CHECK(hear(press(press(two, enter), enter), caught(60.0, 3)).chosen == 1);
}

TEST_CASE("while a carry is typed its swing stays; the one caught meanwhile comes up after that by itself") {
    const ViewState typing = type(hear(hear({}, running(1.0)), caught(20.0, 1)), U"we6");
    ViewState state = hear(typing, caught(40.0, 2));
    CHECK(state.chosen == 0);
    state = press(type(state, U"2"), enter);
    CHECK(state.desk->labels[0].carry_m == 62.0);
    CHECK_FALSE(state.desk->labels[1].carry_m.has_value());
    CHECK(state.chosen == 1);
    // Dropped by Esc: the next that is heard shows it.
    state = press(hear(typing, caught(40.0, 2)), {.key = NamedKey::escape});
    state = hear(state, standing(41.0, Stance::still, 0.95));
    CHECK(state.chosen == 1);
    CHECK_FALSE(state.desk->labels[0].carry_m.has_value());
}

TEST_CASE("what the distances lack is said with the keys that mend it, from where the coach is") {
    const KeyPress escape{.key = NamedKey::escape};
    const auto words = [](ViewState state) {
        state.notice.clear();
        return carries_without_wedge_words(state);
    };
    ViewState state = hear(hear({}, running(1.0)), caught(20.0, 1));
    CHECK(words(state).empty());
    state = press(press(type(state, U"62"), enter), escape);
    const ViewState replay = state;
    CHECK(words(replay) == "carry without wedge or length: swing 1  ·  W and E say them");
    const ViewState set_up = press(state, enter);
    REQUIRE(set_up.desk->showing == Showing::set_up);
    CHECK(words(set_up) == "carry without wedge or length: swing 1  ·  Enter, then W and E");
    ViewState mended = type(press(set_up, enter), U"we");
    CHECK(words(mended).empty());
    state = hear(replay, caught(40.0, 2));
    CHECK(words(state) == "carry without wedge or length: swing 1  ·  ↑ ↓ to it, then W and E");
    CHECK(words(press(state, {.key = NamedKey::up})).ends_with("swing 1  ·  W and E say them"));
    CHECK(words(press(state, enter)).ends_with("swing 1  ·  Enter, ↑ ↓ to it, then W and E"));
    ScreenBench screen(1280, 720);
    state = press(state, enter);
    const ScreenDrawn drawn = screen.draw(state);
    for (const PlacedText& placed : drawn.texts) {
        if (placed.panel == "strip") CHECK(placed.cut == Cut::whole);
    }
}

TEST_CASE(
    "a swing that is caught leaves the coach at the book, so that no key meant for it comes upon a swing") {
    const ViewState one = hear(hear({}, running(1.0)), caught(20.0, 1));
    ViewState state = one;
    state.book.emplace();
    state.front = Front::book;
    state = hear(state, caught(40.0, 2));
    CHECK(state.front == Front::book);
    CHECK(state.desk->labels.size() == 2);
    CHECK(state.notice.find("Swing 2 was caught.  Esc goes back to the lesson") != std::string::npos);
    state = press(state, {.key = NamedKey::escape});
    CHECK(state.front == Front::swings);
    state = hear(state, caught(41.0, 2));
    CHECK(state.chosen == 1);
    CHECK(state.desk->showing == Showing::replay);
}
