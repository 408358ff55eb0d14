#include "viewer/panels/keys.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"

using namespace footing;
using bench::open_sample;
using bench::press;
using bench::shows;
using bench::type;

namespace {

/// Every screen there is, with something to undo, to go back to and to lay beside each other.
std::vector<sample::NamedScreen> screens_for_keys() {
    std::vector<sample::NamedScreen> screens = sample::all_screens(sample::Names::usual);
    for (sample::NamedScreen& screen : screens) {
        ViewState& state = screen.state;
        if (state.desk && !state.desk->labels.empty() && state.desk->undo.empty())
            state = carry_out(std::move(state), LessonAction{SayWord{CoachWord::shot}});
        state = carry_out(std::move(state), StepTime{0.037});  // on no event
    }
    return screens;
}

std::string drawn_on(bench::ScreenBench& screen, const ViewState& state) {
    std::string all;
    for (const PlacedText& placed : screen.draw(state).texts)
        all += placed.text + "@" + std::to_string(placed.drawn.left) + "," +
               std::to_string(placed.drawn.top) + ";";
    return all;
}

/// Whether anybody could tell the two apart: by the screen, or by what the window is to do.
bool differs(const ViewState& a, const ViewState& b) {
    const auto wishes = [](const ViewState& state) {
        std::string all = state.notice + state.report_wish + state.opening;
        const auto add = [&](auto value) { all += "|" + std::to_string(static_cast<int>(value)); };
        add(state.life);
        add(state.theme);
        add(state.text_size);
        add(state.sounds);
        add(state.overlay);
        add(state.front);
        add(state.looping);
        add(state.playing);
        add(state.speed);
        add(state.marking.revision);
        add(state.head_s * 10'000.0);
        add(state.chosen.value_or(999));
        add(state.recent_row);
        if (state.desk) {
            add(state.desk->wish);
            add(state.desk->undo.size());
            all += state.desk->club + state.desk->length + state.desk->entry;
        }
        if (state.compare) {
            add(state.compare->revision);
            add(state.compare->row);
            all += state.compare->other_file;
        }
        if (state.book) {
            add(state.book->page);
            add(state.book->row);
            add(state.book->revision);
            add(state.book->wish);
            add(state.book->undo);
            add(state.book->bench.wish);
            add(state.book->bench.method);
            add(state.book->edits.size());
            add(state.book->joined.size());
            all += state.book->typed + state.book->bench.typed;
        }
        return all;
    };
    if (wishes(a) != wishes(b)) return true;
    static bench::ScreenBench screen(1280, 720);
    return drawn_on(screen, a) != drawn_on(screen, b);
}

/// Letters of a name, and keys of which the window says where they belong.
bool is_explained(const KeyPress& key, const ViewState& state) {
    const bool naming = state.book && state.front == Front::book && state.book->page == BookPage::students &&
                        state.overlay == Overlay::none;
    if (naming && key.character != 0 && key.modifier == Modifier::none) return true;
    const auto asked = action_for(key, state);
    return asked && std::holds_alternative<Tell>(*asked);
}

}  // namespace

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

TEST_CASE("every key that is listed for a screen does something there, and every other does nothing") {
    std::vector<KeyPress> all;
    for (char32_t letter = U'a'; letter <= U'z'; ++letter) {
        all.push_back({.character = letter});
        all.push_back({.character = letter, .modifier = Modifier::control});
    }
    for (const char32_t other : std::u32string(U"0123456789., ?[]+-=")) all.push_back({.character = other});
    for (int key = static_cast<int>(NamedKey::left); key <= static_cast<int>(NamedKey::erase); ++key)
        all.push_back({.key = static_cast<NamedKey>(key)});

    for (sample::NamedScreen screen : screens_for_keys()) {
        CAPTURE(screen.name);
        screen.state.notice.clear();  // as each key does (carry_out_heard)
        const std::vector<KeyLine> lines = keys_in_front(screen.state);
        CHECK_FALSE(lines.empty());
        std::set<std::string> seen;
        std::vector<KeyPress> listed;
        for (const KeyLine& line : lines) {
            CAPTURE(line.keys);
            CHECK_FALSE(line.meaning.empty());
            CHECK(seen.insert(line.keys + line.meaning).second);
            bool does_something = line.bindings.empty();  // letters of a name
            for (const KeyBinding& binding : line.bindings) {
                listed.push_back(binding.press);
                does_something = does_something || differs(screen.state, press(screen.state, binding.press));
            }
            CHECK(does_something);
        }
        for (const KeyPress& key : all) {
            const bool named = std::ranges::find(listed, key) != listed.end();
            if (named || is_explained(key, screen.state)) continue;
            CAPTURE(static_cast<int>(key.character));
            CAPTURE(static_cast<int>(key.key));
            CHECK_FALSE(differs(screen.state, press(screen.state, key)));
        }
    }
}

TEST_CASE("the question mark lists what the screen in front takes, and says which screen that is") {
    bench::ScreenBench drawn(1280, 720);
    const auto listed = [&](const std::string& name) {
        for (const sample::NamedScreen& screen : screens_for_keys()) {
            if (screen.name == name) return drawn.draw(carry_out(screen.state, ToggleKeys{}));
        }
        FAIL("there is no screen called " << name);
        return ScreenDrawn{};
    };
    const ScreenDrawn lesson = listed("lesson_replay");
    CHECK(shows(lesson, "Keys: the replay"));
    CHECK(shows(lesson, "that swing was a shot"));
    CHECK_FALSE(shows(lesson, "write the report"));
    const ScreenDrawn recording = listed("recording");
    CHECK(shows(recording, "write the report"));
    for (const char* of_a_lesson : {"that swing was a shot", "the next wedge", "type the carry", "sounds"})
        CHECK_FALSE(shows(recording, of_a_lesson));
    const ScreenDrawn begin = listed("book_next lesson");
    for (const char* of_the_page : {"Keys: next lesson", "may not be recorded", "take several as one", "Tab"})
        CHECK(shows(begin, of_the_page));
    CHECK_FALSE(shows(begin, "play, pause"));
    CHECK(shows(listed("plates_heard"), "quick check"));
    CHECK(shows(listed("compared_all"), "the shot with its practice swings"));
}

TEST_CASE("who presses a key of a lesson where none runs is told where that is said") {
    CHECK(type(open_sample(), U"s").notice.find("footing swings label") != std::string::npos);
    CHECK(type(open_sample(), U"6").notice.find("footing shots add") != std::string::npos);
    CHECK(type(open_sample(), U"b").notice.find("footing lesson") != std::string::npos);
    CHECK(type(ViewState{}, U"s").notice.empty());
    // While a lesson runs no other recording is opened.
    const KeyPress before{.character = U'o', .modifier = Modifier::control};
    CHECK(press(sample::in_lesson(sample::Names::usual), before).notice.find("A lesson is under way") !=
          std::string::npos);
    CHECK(press(open_sample(), before).overlay == Overlay::recent);
}

TEST_CASE("keys by screen, for people without the window: each line once, whatever the screen") {
    for (const KeySection& section : keys_by_screen()) {
        CAPTURE(section.screen);
        CHECK_FALSE(section.lines.empty());
    }
    CHECK(keys_by_screen().size() == 3 + 1 + book_pages.size());
}

TEST_CASE("a key without a meaning asks for nothing") {
    CHECK_FALSE(action_for({.character = U'z'}, open_sample()).has_value());
    CHECK_FALSE(action_for({.character = U' ', .modifier = Modifier::control}, open_sample()).has_value());
    CHECK_FALSE(action_for({}, open_sample()).has_value());
}
