#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <vector>

#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"
#include "viewer/panels/keys.h"

using namespace footing;
using bench::ScreenBench;

namespace {

ViewState press(ViewState state, char32_t character) {
    const auto asked = action_for({.character = character, .modifier = Modifier::control}, state);
    return asked ? carry_out(std::move(state), *asked) : state;
}

}  // namespace

TEST_CASE("control with plus, minus and nought sets the size of text, within its ends") {
    ViewState state;
    CHECK(press(state, U'+').text_size == usual_text_size + 1);
    for (int i = 0; i < 9; ++i) state = press(std::move(state), U'+');
    CHECK(state.text_size == text_sizes.size() - 1);
    CHECK(press(state, U'0').text_size == usual_text_size);
    for (int i = 0; i < 9; ++i) state = press(std::move(state), U'-');
    CHECK(state.text_size == 0);
}

TEST_CASE("larger text makes all larger, as far as the window has room; never smaller than it was") {
    CHECK(screen_scale(1920, 1080, 1.0F, 1.2F) > 1.15F * screen_scale(1920, 1080));
    CHECK(screen_scale(1280, 720, 1.0F, 1.75F) <= 720.0F / least_height_px);
    CHECK(screen_scale(1280, 720, 1.0F, 1.75F) >= screen_scale(1280, 720));
    CHECK(screen_scale(3840, 2160, 1.0F, 1.45F) > 1.4F * screen_scale(3840, 2160));
    // A screen of twice the density shows the same at twice the px.
    CHECK(screen_scale(2560, 1440, 2.0F, 1.2F) ==
          doctest::Approx(2.0F * screen_scale(1280, 720, 1.0F, 1.2F)));
    CHECK(screen_scale(3840, 2160, 2.0F) == doctest::Approx(2.0F * screen_scale(1920, 1080)));
}

TEST_CASE("the set-up's share and words are as large a part of a large screen as of a small one (U7)") {
    const auto part_of_height = [](float width, float height, const std::string& text) {
        ScreenBench screen(width, height);
        const ScreenDrawn drawn = screen.draw(sample::hear({}, sample::standing(10.0, Stance::still, 0.75)));
        const auto found =
            std::ranges::find_if(drawn.texts, [&](const PlacedText& placed) { return placed.text == text; });
        REQUIRE(found != drawn.texts.end());
        return found->drawn.height() / height;
    };
    for (const char* text : {"75", "inside"}) {
        const float small = part_of_height(1280, 720, text);
        CHECK(part_of_height(1920, 1080, text) > 0.9F * small);
        CHECK(part_of_height(3840, 2160, text) > 0.9F * small);
    }
    // Capitals are 0.727 of the em in Inter, the em 1/1.21 of the line: on a screen of 13 inches with 1280 x
    // 720 px (0.225 mm a px) the words' capitals must reach 17.5 mm, on one of 15.6 inches with 1920 x 1080
    // (0.180 mm) too.
    CHECK(part_of_height(1280, 720, "inside") * 720.0F / 1.21F * 0.727F * 0.225F >= 16.5F);
    CHECK(part_of_height(1920, 1080, "inside") * 1080.0F / 1.21F * 0.727F * 0.180F >= 17.5F);
}

TEST_CASE("what decides of a caught swing is as large as the words of the set-up (U7)") {
    const auto height_of = [](const ScreenDrawn& drawn, const std::string& panel, const std::string& text) {
        const auto found = std::ranges::find_if(drawn.texts, [&](const PlacedText& placed) {
            return placed.text == text && placed.panel == panel;
        });
        REQUIRE(found != drawn.texts.end());
        return found->drawn.height();
    };
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}, {3840.0F, 2160.0F}}) {
        CAPTURE(width);
        ScreenBench screen(width, height);
        const float words = height_of(
            screen.draw(sample::hear({}, sample::standing(10.0, Stance::still, 0.75))), "set-up", "inside");
        const ViewState state = sample::in_lesson(sample::Names::usual);
        const Swing& swing = *chosen_swing(state);
        const ScreenDrawn replay = screen.draw(state);
        const auto percent = [](const ShareValue& share) {
            return fmt::format("{:.0f}", share.value * 100.0);
        };
        for (const auto* share :
             {&swing.lead_share.address, &swing.lead_share.lowest, &swing.lead_share.impact}) {
            REQUIRE(share->has_value());
            CHECK(height_of(replay, "deciding", percent(**share)) >= 0.95F * words);
        }
        REQUIRE(swing.tempo);
        const auto found = std::ranges::find_if(replay.texts, [&](const PlacedText& placed) {
            return placed.panel == "deciding" && placed.text.size() == 3 && placed.text[1] == '.';
        });
        REQUIRE(found != replay.texts.end());
        CHECK(found->drawn.height() >= 0.95F * words);
    }
}

TEST_CASE("no text of any screen leaves the window, at any size of window, with long names") {
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}, {3840.0F, 2160.0F}}) {
        ScreenBench screen(width, height);
        for (const sample::Names names : {sample::Names::usual, sample::Names::very_long}) {
            for (const sample::NamedScreen& one : sample::all_screens(names)) {
                const ScreenDrawn drawn = screen.draw(one.state);
                for (const PlacedText& placed : drawn.texts) {
                    CAPTURE(one.name);
                    CAPTURE(width);
                    CAPTURE(placed.text);
                    CHECK(placed.drawn.inside(drawn.layout.window));
                }
            }
        }
    }
}

TEST_CASE("no text of any screen leaves the window of 1280 x 720 at the largest size of text, nor is cut") {
    ScreenBench screen(1280, 720, text_sizes.back());
    for (sample::NamedScreen& one : sample::all_screens(sample::Names::usual)) {
        one.state.text_size = text_sizes.size() - 1;
        const ScreenDrawn drawn = screen.draw(one.state);
        for (const PlacedText& placed : drawn.texts) {
            CAPTURE(one.name);
            CAPTURE(placed.text);
            CHECK(placed.drawn.inside(drawn.layout.window));
            CAPTURE(placed.panel);
            if (placed.panel != "title") CHECK(placed.cut == Cut::whole);
        }
    }
}

TEST_CASE(
    "loads of neighbouring cells keep apart on small plates: whole kilograms where tenths have no room") {
    for (const sample::NamedScreen& one : sample::plates_screens(sample::Names::usual)) {
        if (one.name != "plates_calibrating") continue;
        for (const float size : {1.0F, text_sizes.back()}) {
            ScreenBench screen(1280, 720, size);
            const ScreenDrawn drawn = screen.draw(one.state);
            std::vector<Box> loads;
            for (const PlacedText& placed : drawn.texts) {
                if (placed.text.ends_with(" kg")) loads.push_back(placed.drawn.inset(-2.0F, 0.0F));
            }
            CHECK(loads.size() >= 11);  // eight cells, two plates, the sum
            for (std::size_t i = 0; i < loads.size(); ++i) {
                for (std::size_t j = i + 1; j < loads.size(); ++j) CHECK_FALSE(loads[i].overlaps(loads[j]));
            }
        }
    }
}

TEST_CASE("a problem is told in whole words") {
    ScreenBench screen(1280, 720);
    for (const sample::NamedScreen& one : sample::recording_screens(sample::Names::usual)) {
        if (one.name != "recording_problem") continue;
        const ScreenDrawn drawn = screen.draw(one.state);
        CHECK(std::ranges::any_of(drawn.texts, [](const PlacedText& placed) {
            return placed.text.find("time runs back") != std::string::npos;
        }));
    }
}

namespace {

/// Moments of a lesson in which the window has most to say.
std::vector<sample::NamedScreen> wordy_screens() {
    using sample::Names;
    const auto say = [](ViewState state, const std::vector<LessonAction>& actions) {
        for (const LessonAction& action : actions) state = carry_out(std::move(state), action);
        return state;
    };
    const auto carry = [&](ViewState state, const std::string& digits) {
        for (const char digit : digits) state = carry_out(std::move(state), LessonAction{TypeCarry{digit}});
        return state;
    };
    const auto before = sample::hear({}, sample::running(1.0));
    ViewState far = carry(say(sample::in_lesson(Names::usual), {ChangeLength{}}), "240");
    far.desk->unit = DistanceUnit::yards;
    // Five carries of which nobody said the wedge.
    ViewState lacking = before;
    for (std::size_t swings = 1; swings <= 5; ++swings) {
        lacking =
            sample::hear(std::move(lacking), sample::caught(20.0 * static_cast<double>(swings), swings));
        lacking = say(carry(std::move(lacking), "60"), {Enter{}, Enter{}});
    }
    lacking.notice.clear();
    ViewState in_set_up = say(lacking, {Enter{}});
    in_set_up.notice.clear();
    LiveView troubled = sample::running(5.0);
    troubled.zero_advice = ZeroAdvice::too_old;
    troubled.weight_difference = -0.04;
    troubled.calibration_state = CalibrationState::expired;
    troubled.recent_loss = 0.12;
    troubled.progress.minutes_left = 12.0;
    BookFacts facts = sample::book_facts(Names::usual);
    facts.student->consent = Consent::not_asked;
    facts.student->weight_kg.reset();
    ViewState simulated = sample::at_book(facts, BookPage::begin);
    simulated = carry_out(std::move(simulated), BookAction{MoveRow{1}});
    return {{"far", far},
            {"far_asked", say(far, {Enter{}})},
            {"lacking", lacking},
            {"lacking_in_set_up", in_set_up},
            {"troubled", sample::hear({}, troubled)},
            {"begin_not_asked", sample::at_book(facts, BookPage::begin)},
            {"begin_simulated", simulated}};
}

}  // namespace

TEST_CASE("the cautions before a lesson stand there whole, whatever else is said") {
    BookFacts facts = sample::book_facts(sample::Names::usual);
    facts.student->consent = Consent::refused;
    ViewState state = carry_out(sample::at_book(facts, BookPage::begin), BookAction{MoveRow{1}});
    state.book->refusal = Refusal{facts.student->id, facts.student->name, "/home/coach/lessons/7.h5"};
    ScreenBench screen(1280, 720, 1.2F);
    const ScreenDrawn drawn = screen.draw(state);
    REQUIRE(std::ranges::any_of(drawn.texts, [](const PlacedText& placed) {
        return placed.text.find("simulated golfer, not plates") != std::string::npos;
    }));
    CHECK(std::ranges::any_of(drawn.texts,
                              [](const PlacedText& placed) { return placed.text.ends_with("consent."); }));
}

TEST_CASE("with usual names no word is cut on any screen of 1280 x 720, with larger text neither") {
    for (const float text_size : {1.0F, 1.2F}) {
        ScreenBench screen(1280, 720, text_size);
        std::vector<sample::NamedScreen> screens = sample::all_screens(sample::Names::usual);
        std::ranges::move(wordy_screens(), std::back_inserter(screens));
        for (const sample::NamedScreen& one : screens) {
            for (const PlacedText& placed : screen.draw(one.state).texts) {
                CAPTURE(one.name);
                CAPTURE(text_size);
                CAPTURE(placed.text);
                CHECK(placed.cut == Cut::whole);
            }
        }
    }
}
