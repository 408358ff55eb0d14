#include "viewer/panels/keys.h"

#include <doctest/doctest.h>

#include <memory>
#include <set>
#include <string>

#include "tests/panels/key_pressing.h"

using namespace footing;
using bench::open_sample;
using bench::press;
using bench::type;

// What each key must do: U3 of the field requirements.

TEST_CASE("space plays and pauses") {
    const ViewState state = type(open_sample(), U" ");
    CHECK(state.playing == Playing::running);
    CHECK(type(state, U" ").playing == Playing::paused);
}

TEST_CASE("comma and period step one sample") {
    const ViewState state = open_sample();
    CHECK(type(state, U".").head_s - state.head_s == doctest::Approx(1.0 / sample::rate_hz));
    CHECK(state.head_s - type(state, U",").head_s == doctest::Approx(1.0 / sample::rate_hz));
}

TEST_CASE("arrows step 10 ms, with shift 100 ms") {
    const ViewState state = open_sample();
    CHECK(press(state, {.key = NamedKey::right}).head_s - state.head_s == doctest::Approx(0.01));
    CHECK(press(state, {.key = NamedKey::left}).head_s - state.head_s == doctest::Approx(-0.01));
    CHECK(press(state, {.key = NamedKey::right, .modifier = Modifier::shift}).head_s - state.head_s ==
          doctest::Approx(0.1));
    CHECK(press(state, {.key = NamedKey::left, .modifier = Modifier::shift}).head_s - state.head_s ==
          doctest::Approx(-0.1));
}

TEST_CASE("L loops, in either case of the letter") {
    CHECK(type(open_sample(), U"l").looping == Looping::on);
    CHECK(type(open_sample(), U"L").looping == Looping::on);
    CHECK(type(type(open_sample(), U"l"), U"l").looping == Looping::off);
}

TEST_CASE("brackets go through the speeds from 1/20 to 2 times") {
    ViewState state = open_sample();
    for (int i = 0; i < 20; ++i) state = type(state, U"[");
    CHECK(play_speeds[state.speed] == doctest::Approx(1.0 / 20.0));
    for (int i = 0; i < 20; ++i) state = type(state, U"]");
    CHECK(play_speeds[state.speed] == doctest::Approx(2.0));
}

TEST_CASE("home, I and end go to address, impact and finish") {
    const ViewState state = press(open_sample(), {.key = NamedKey::home});
    const SwingEvents& events = chosen_swing(state)->events;
    CHECK(state.head_s == doctest::Approx(events.address->time_s));
    CHECK(type(state, U"i").head_s == doctest::Approx(events.impact->time_s));
    CHECK(press(state, {.key = NamedKey::end}).head_s == doctest::Approx(events.finish->time_s));
}

TEST_CASE("up, down and the page keys pick swings") {
    const ViewState state = open_sample();
    CHECK(press(state, {.key = NamedKey::down}).chosen == 3);
    CHECK(press(state, {.key = NamedKey::page_down}).chosen == 3);
    CHECK(press(state, {.key = NamedKey::up}).chosen == 1);
    CHECK(press(state, {.key = NamedKey::page_up}).chosen == 1);
}

TEST_CASE("C keeps a swing, T changes the theme, the question mark lists the keys, escape puts them away") {
    CHECK(type(open_sample(), U"c").compared == 2);
    CHECK(type(open_sample(), U"t").theme == Theme::slate);
    const ViewState listed = type(open_sample(), U"?");
    CHECK(listed.overlay == Overlay::keys);
    CHECK(press(listed, {.key = NamedKey::escape}).overlay == Overlay::none);
}

TEST_CASE("control Q closes, Q alone does not") {
    CHECK(press(open_sample(), {.character = U'q', .modifier = Modifier::control}).life ==
          WindowLife::closing);
    CHECK(type(open_sample(), U"q").life == WindowLife::open);
}

TEST_CASE("every key works where nothing is open, without harm") {
    for (const KeyLine& line : key_lines()) {
        for (const KeyBinding& binding : line.bindings) {
            const ViewState state = press(ViewState{}, binding.press);
            CHECK(state.lesson == nullptr);
            CHECK(state.head_s == 0.0);
        }
    }
}

TEST_CASE("no two keys are the same, and each line says something") {
    std::set<std::string> seen;
    for (const KeyLine& line : key_lines()) {
        CHECK_FALSE(std::string(line.meaning).empty());
        CHECK(seen.insert(line.keys).second);
        for (const KeyBinding& binding : line.bindings) {
            const auto asked = action_for(binding.press);
            REQUIRE(asked.has_value());
            CHECK(asked->index() == binding.action.index());
        }
    }
}

TEST_CASE("a key without a meaning asks for nothing") {
    CHECK_FALSE(action_for({.character = U'z'}).has_value());
    CHECK_FALSE(action_for({.character = U' ', .modifier = Modifier::control}).has_value());
    CHECK_FALSE(action_for({}).has_value());
}
