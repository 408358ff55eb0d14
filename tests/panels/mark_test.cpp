#include <doctest/doctest.h>

#include <cmath>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"
#include "viewer/panels/stage_figure.h"

using namespace footing;
using bench::open_sample;
using bench::press;
using bench::redo;
using bench::ScreenBench;
using bench::undo;

namespace {

constexpr std::size_t top = 3;  // in named_events

ViewState dragged_to(ViewState state, std::size_t event, double time_s) {
    state = carry_out(std::move(state), MarkAction{DragEvent{event, time_s}});
    return carry_out(std::move(state), MarkAction{DropEvent{}});
}

std::optional<double> marked(const ViewState& state, std::size_t event) {
    const CoachMark* mark = mark_near(state.marking.marks, chosen_swing(state)->events.impact->time_s);
    return mark ? mark->event_s[event] : std::nullopt;
}

}  // namespace

TEST_CASE("an event that is pulled along the trace is marked where it is let go; undone and done again") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const ScreenDrawn drawn = screen.draw(state);
    const Box& stage = drawn.layout.stage;
    const StageFigure figure =
        stage_figure(state, static_cast<double>(stage.width()), static_cast<double>(stage.height()));
    const double finish_s = chosen_swing(state)->events.finish->time_s;
    const auto y_of = [&](double time_s) {
        return stage.top + static_cast<float>(figure.scale.y_of(time_s - figure.scale.zero_s));
    };
    const float x = stage.left + static_cast<float>(figure.scale.trace.left) + 40.0F;
    state = screen.drag(state, {x, y_of(finish_s)}, {x, y_of(finish_s + 0.3)});
    state = screen.step(state);
    REQUIRE(marked(state, 5).has_value());
    CHECK(*marked(state, 5) == doctest::Approx(finish_s + 0.3).epsilon(0.02 / finish_s));
    CHECK(state.head_s == doctest::Approx(*marked(state, 5)));
    CHECK(state.marking.revision == 1);
    state = press(state, undo);
    CHECK(state.marking.marks.swings.empty());
    state = press(state, redo);
    CHECK(marked(state, 5).has_value());
}

TEST_CASE("an event can be taken by its name too, and a press without a pull goes there and marks nothing") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const ScreenDrawn drawn = screen.draw(state);
    const auto name = std::ranges::find_if(drawn.texts, [](const PlacedText& placed) {
        return placed.panel == "stage" && placed.text == "address";
    });
    REQUIRE(name != drawn.texts.end());
    const ImVec2 at{name->drawn.middle_x(), name->drawn.middle_y()};
    state = screen.step(screen.click(state, at.x, at.y));
    CHECK(state.marking.marks.swings.empty());
    CHECK(state.marking.undo.empty());
    CHECK(state.head_s == doctest::Approx(chosen_swing(state)->events.address->time_s));
    state = screen.step(screen.drag(state, at, {at.x, at.y - 20.0F}));
    REQUIRE(marked(state, 0).has_value());
    CHECK(*marked(state, 0) < chosen_swing(state)->events.address->time_s);
}

TEST_CASE("marks that contradict each other are refused in one sentence, and nothing changes") {
    ViewState state = open_sample();
    const double impact_s = chosen_swing(state)->events.impact->time_s;
    state = dragged_to(state, top, impact_s - 0.3);
    state = dragged_to(state, 0, impact_s - 0.1);  // address after the marked top
    REQUIRE(state.problem.has_value());
    CHECK(state.problem->what.find("top") != std::string::npos);
    CHECK_FALSE(marked(state, 0).has_value());
    CHECK(state.marking.undo.size() == 1);
}

TEST_CASE("Delete takes back the mark that the head stands on, and that is undone too") {
    ViewState state = open_sample();
    const double impact_s = chosen_swing(state)->events.impact->time_s;
    state = dragged_to(state, top, impact_s - 0.3);
    state = press(state, {.key = NamedKey::erase});
    CHECK_FALSE(marked(state, top).has_value());
    state = press(state, undo);
    CHECK(marked(state, top).has_value());
}

TEST_CASE("a step is written on a real change only (U5)") {
    ViewState state = open_sample();
    const double impact_s = chosen_swing(state)->events.impact->time_s;
    state = dragged_to(state, top, impact_s - 0.3);
    state = dragged_to(state, top, impact_s - 0.3);
    CHECK(state.marking.undo.size() == 1);
    CHECK(state.marking.revision == 1);
}

TEST_CASE("in a lesson under way nothing is marked, and the keys undo labels") {
    ViewState state = sample::hear(sample::hear({}, sample::running(1.0)), sample::caught(20.0, 2));
    state = dragged_to(state, top, state.head_s - 0.3);
    CHECK(state.marking.marks.swings.empty());
    state = carry_out(state, LessonAction{SayWord{CoachWord::shot}});
    state = press(state, undo);
    CHECK(state.desk->labels[1].word == CoachWord::not_said);
}

TEST_CASE("a recording analysed anew stays where the coach looks") {
    ViewState state = carry_out(open_sample(), ChooseSwing{4});
    state = carry_out(state, CompareSwing{6});
    LessonResult fewer = *state.lesson;
    fewer.swings.erase(fewer.swings.begin() + 1);
    const double head_s = state.head_s;
    state = show_again(bench::shared(fewer), state);
    CHECK(state.chosen == 3);
    CHECK(state.compared == 5);
    CHECK(state.head_s == doctest::Approx(head_s));
    fewer.swings.erase(fewer.swings.begin() + 3);
    state = show_again(bench::shared(fewer), state);
    CHECK_FALSE(state.chosen.has_value());  // what the coach looked at is no swing any more
}
