#include "analysis/swing/coach_marks.h"

#include <doctest/doctest.h>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_accuracy.h"

using namespace footing;
using namespace footing::testing;

namespace {

LessonPlan small_plan() {
    LessonPlan plan = plan_for(MotionShape::minimum_jerk, Conditions::quiet, 40);
    plan.rate_hz = 250;
    plan.swings = 3;
    plan.unusual_golfers = 0.0;
    return plan;
}

CoachMark mark_of(const Swing& swing) {
    CoachMark mark;
    mark.near_s = swing.events.impact->time_s;
    return mark;
}

constexpr std::size_t impact = 4;  // in named_events
constexpr std::size_t takeaway = 1;

}  // namespace

TEST_CASE("a mark wins, and what was found stays beside it") {
    const LessonPlan plan = small_plan();
    const GeneratedLesson lesson = generate_lesson(plan);
    const std::vector<Swing> found = analyse_swings(lesson.trace, plan.hand, {});
    REQUIRE(found.size() == 3);
    CoachMark mark = mark_of(found[1]);
    const double at_s = found[1].events.impact->time_s + 0.031;
    mark.event_s[impact] = at_s;
    mark.kind = SwingKind::practice;
    const std::vector<Swing> marked = analyse_swings(lesson.trace, plan.hand, {}, {}, {{mark}});
    REQUIRE(marked.size() == 3);
    CHECK(marked[1].events.impact->time_s == at_s);
    CHECK(marked[1].events.impact->source == EventSource::coach);
    REQUIRE(marked[1].found_events.impact);
    CHECK(marked[1].found_events.impact->time_s == found[1].events.impact->time_s);
    CHECK_FALSE(marked[1].found_events.takeaway);
    CHECK(marked[1].kind == SwingKind::practice);
    CHECK(marked[1].found_kind == SwingKind::unknown);
    CHECK(marked[1].lead_share.impact->value != found[1].lead_share.impact->value);
    CHECK(marked[1].tempo->downswing_s == doctest::Approx(at_s - marked[1].events.top->time_s));
    for (const std::size_t other : {0U, 2U}) {
        CHECK(marked[other].events.impact->time_s == found[other].events.impact->time_s);
        CHECK_FALSE(marked[other].found_events.impact);
    }
}

TEST_CASE("the address follows a marked takeaway") {
    const LessonPlan plan = small_plan();
    const GeneratedLesson lesson = generate_lesson(plan);
    const std::vector<Swing> found = analyse_swings(lesson.trace, plan.hand, {});
    CoachMark mark = mark_of(found[0]);
    mark.event_s[takeaway] = found[0].events.takeaway->time_s - 0.2;
    const std::vector<Swing> marked = analyse_swings(lesson.trace, plan.hand, {}, {}, {{mark}});
    CHECK(marked[0].events.address->time_s < found[0].events.address->time_s);
    CHECK(marked[0].events.address->source == EventSource::estimated);
}

TEST_CASE("what is marked as no swing is left out, and the others keep their numbers") {
    const LessonPlan plan = small_plan();
    const GeneratedLesson lesson = generate_lesson(plan);
    const std::vector<Swing> found = analyse_swings(lesson.trace, plan.hand, {});
    CoachMark mark = mark_of(found[1]);
    mark.marked_as = MarkedAs::not_a_swing;
    const std::vector<Swing> marked = analyse_swings(lesson.trace, plan.hand, {}, {}, {{mark}});
    REQUIRE(marked.size() == 2);
    CHECK(marked[0].index == 1);
    CHECK(marked[1].index == 3);
}

TEST_CASE("a found event on the wrong side of a marked one is absent, never moved") {
    SwingEvents events;
    events.takeaway = Event{1.0, 0.01, EventSource::estimated};
    events.turnaround = Event{1.7, 0.01, EventSource::estimated};
    events.impact = Event{1.5, 0.01, EventSource::coach};
    events.finish = Event{2.5, 0.01, EventSource::estimated};
    drop_contradicted(events);
    CHECK(events.takeaway);
    CHECK_FALSE(events.turnaround);
    CHECK(events.finish);
}

TEST_CASE("a mark belongs to the nearest swing within a second") {
    CoachMarks marks;
    marks.swings.resize(2);
    marks.swings[0].near_s = 10.0;
    marks.swings[1].near_s = 11.0;
    CHECK(mark_near(marks, 10.4)->near_s == 10.0);
    CHECK(mark_near(marks, 10.6)->near_s == 11.0);
    CHECK(mark_near(marks, 12.1) == nullptr);
}
