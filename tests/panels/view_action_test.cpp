#include "viewer/panels/view_action.h"

#include <doctest/doctest.h>

#include <memory>

#include "analysis/report/figure_scale.h"
#include "tests/panels/key_pressing.h"
#include "tests/support/lesson_sample.h"

using namespace footing;
using bench::open_sample;

namespace {

constexpr double sample_s = 1.0 / sample::rate_hz;

}  // namespace

TEST_CASE("a lesson opens on its first shot, head at impact, at rest") {
    const ViewState state = open_sample();
    REQUIRE(chosen_swing(state) != nullptr);
    CHECK(chosen_swing(state)->index == 3);  // 1 and 2 are practice swings
    CHECK(state.head_s == doctest::Approx(chosen_swing(state)->events.impact->time_s));
    CHECK(state.playing == Playing::paused);
    CHECK(feet_known(state));
}

TEST_CASE(
    "a lesson opens on a practice swing when there is no shot, and on its start when there is no swing") {
    LessonResult practice = sample::lesson();
    for (Swing& swing : practice.swings) swing.kind = SwingKind::practice;
    CHECK(show_lesson(std::make_shared<const LessonResult>(practice)).chosen == 0);
    const ViewState without =
        show_lesson(std::make_shared<const LessonResult>(sample::lesson_without_swings()));
    CHECK_FALSE(without.chosen.has_value());
    CHECK(without.head_s == 0.0);
}

TEST_CASE("choosing another swing keeps the moment of the swing") {
    ViewState state = open_sample();
    state = carry_out(state, MoveHead{zero_of(*chosen_swing(state)) - 0.25});
    state = carry_out(state, ChooseSwing{5});
    CHECK(state.chosen == 5);
    CHECK(state.head_s - zero_of(*chosen_swing(state)) == doctest::Approx(-0.25));
}

TEST_CASE("a swing that does not exist is not chosen") {
    const ViewState before = open_sample();
    CHECK(carry_out(before, ChooseSwing{99}).chosen == before.chosen);
    CHECK(carry_out(before, CompareSwing{99}).compared == before.compared);
    CHECK(carry_out(ViewState{}, ChooseNeighbour{1}).chosen == std::nullopt);
}

TEST_CASE("the neighbour of the last swing is the last swing") {
    ViewState state = carry_out(open_sample(), ChooseSwing{7});
    CHECK(carry_out(state, ChooseNeighbour{1}).chosen == 7);
    CHECK(carry_out(state, ChooseNeighbour{-1}).chosen == 6);
    CHECK(carry_out(carry_out(state, ChooseSwing{0}), ChooseNeighbour{-1}).chosen == 0);
}

TEST_CASE("a swing kept for comparison stays while others are chosen, and is let go by the same key") {
    ViewState state = carry_out(open_sample(), KeepForComparison{});
    CHECK(compared_swing(state) == nullptr);  // beside itself there is nothing to compare
    state = carry_out(state, ChooseNeighbour{1});
    REQUIRE(compared_swing(state) != nullptr);
    CHECK(compared_swing(state)->index == 3);
    CHECK(compared_swing(carry_out(state, KeepForComparison{})) == nullptr);
}

TEST_CASE("the compared swing's head is the same moment counted from its own zero") {
    ViewState state = carry_out(carry_out(open_sample(), KeepForComparison{}), ChooseNeighbour{1});
    state = carry_out(state, MoveHead{zero_of(*chosen_swing(state)) + 0.1});
    REQUIRE(compared_head_s(state));
    CHECK(*compared_head_s(state) == doctest::Approx(zero_of(*compared_swing(state)) + 0.1));
}

TEST_CASE("the head stays within the swing that is played") {
    ViewState state = open_sample();
    const TimeSpan span = played_span(state);
    CHECK(carry_out(state, MoveHead{-5.0}).head_s == span.from_s);
    CHECK(carry_out(state, MoveHead{1e9}).head_s == span.to_s);
    CHECK(carry_out(state, MoveHead{unknown}).head_s == state.head_s);
}

TEST_CASE("scrubbing chooses the swing under the head, and none between two swings") {
    ViewState state = open_sample();
    const Swing& sixth = state.lesson->swings[5];
    state = carry_out(state, ScrubTo{*&sixth.from_s + 0.5});
    CHECK(state.chosen == 5);
    CHECK(state.head_s == doctest::Approx(sixth.from_s + 0.5));
    state = carry_out(state, ScrubTo{sixth.to_s + 1.0});
    CHECK_FALSE(state.chosen.has_value());
    CHECK(state.head_s == doctest::Approx(sixth.to_s + 1.0));
    CHECK(shown_span(state).from_s <= state.head_s);
    CHECK(shown_span(state).to_s >= state.head_s);
}

TEST_CASE("playing moves the head at the chosen speed and stops at the end of the swing") {
    ViewState state = carry_out(open_sample(), MoveHead{0.0});
    state = carry_out(state, TogglePlaying{});
    const double from_s = state.head_s;
    CHECK(advance(state, 0.1).head_s == doctest::Approx(from_s + 0.1));
    ViewState slow = state;
    while (slow.speed > 0) slow = carry_out(slow, ChangeSpeed{-1});
    CHECK(advance(slow, 1.0).head_s == doctest::Approx(from_s + 0.05));  // 1/20, U3
    ViewState fast = state;
    for (int i = 0; i < 10; ++i) fast = carry_out(fast, ChangeSpeed{1});
    CHECK(advance(fast, 0.1).head_s == doctest::Approx(from_s + 0.2));  // 2 x, U3
    const ViewState ended = advance(state, 100.0);
    CHECK(ended.playing == Playing::paused);
    CHECK(ended.head_s == played_span(state).to_s);
    CHECK(carry_out(ended, TogglePlaying{}).head_s == played_span(state).from_s);
}

TEST_CASE("in a loop playing begins again where the swing begins") {
    ViewState state = carry_out(carry_out(open_sample(), ToggleLooping{}), MoveHead{0.0});
    state = carry_out(state, TogglePlaying{});
    const TimeSpan span = played_span(state);
    const ViewState later = advance(state, span.to_s - span.from_s + 0.3);
    CHECK(later.playing == Playing::running);
    CHECK(later.head_s == doctest::Approx(span.from_s + 0.3));
}

TEST_CASE("a paused head does not move") {
    const ViewState state = open_sample();
    CHECK(advance(state, 10.0).head_s == state.head_s);
    CHECK(carry_out(ViewState{}, TogglePlaying{}).playing == Playing::paused);
}

TEST_CASE("one sample on is exactly the next sample") {
    const ViewState state = open_sample();
    const ViewState next = carry_out(state, StepSamples{1});
    CHECK(next.head_s - state.head_s == doctest::Approx(sample_s).epsilon(1e-9));
    CHECK(carry_out(next, StepSamples{-1}).head_s == doctest::Approx(state.head_s));
}

TEST_CASE("a problem and the list of keys are put away by the same word") {
    ViewState state = open_sample();
    state.problem = Problem{ProblemKind::bad_input, "x.h5", "is not a recording", ""};
    state = carry_out(state, ToggleKeys{});
    CHECK(state.overlay == Overlay::keys);
    state = carry_out(state, CloseOverlay{});
    CHECK(state.overlay == Overlay::none);
    CHECK_FALSE(state.problem.has_value());
}

TEST_CASE("opening another lesson keeps theme, speed and loop, and forgets what belonged to the old one") {
    ViewState state = carry_out(carry_out(open_sample(), ToggleTheme{}), KeepForComparison{});
    state = carry_out(carry_out(state, ChangeSpeed{-1}), ToggleLooping{});
    state = show_lesson(std::make_shared<const LessonResult>(sample::lesson(Hand::left)), state);
    CHECK(state.theme == Theme::slate);
    CHECK(state.speed == real_time_speed - 1);
    CHECK(state.looping == Looping::on);
    CHECK_FALSE(state.compared.has_value());
}

TEST_CASE("lead is the left foot of a right-handed golfer and the right foot of a left-handed one") {
    LessonResult lesson = sample::lesson();
    lesson.trace.left_n[0] = 300.0;
    lesson.trace.right_n[0] = 100.0;
    CHECK(lead_share_at(lesson, 0) == doctest::Approx(0.75));
    lesson.facts.hand = Hand::left;
    CHECK(lead_share_at(lesson, 0) == doctest::Approx(0.25));
    lesson.trace.left_n[0] = lesson.trace.right_n[0] = 0.0;
    CHECK_FALSE(known(lead_share_at(lesson, 0)));
    CHECK_FALSE(known(lead_share_at(lesson, lesson.trace.size())));
}
