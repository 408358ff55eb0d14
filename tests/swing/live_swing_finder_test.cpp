#include "analysis/swing/live_swing_finder.h"

#include <doctest/doctest.h>

#include <cmath>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_accuracy.h"

using namespace footing;
using namespace footing::testing;

TEST_CASE("live, the same swings are counted as in the recording afterwards") {
    LessonPlan plan = plan_for(MotionShape::minimum_jerk, Conditions::ordinary, 7);
    plan.rate_hz = 250;
    plan.swings = 6;
    const GeneratedLesson lesson = generate_lesson(plan);
    const LoadTrace& trace = lesson.trace;
    LiveSwingFinder live(plan.rate_hz, plan.hand, {});
    std::size_t told = 0;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        LoadSample sample;
        sample.total_n = trace.total_n[i];
        sample.left_n = trace.left_n[i];
        sample.right_n = trace.right_n[i];
        if (known(trace.cop_x_m[i])) sample.cop = PointM{trace.cop_x_m[i], trace.cop_y_m[i]};
        told += live.add({1000 + i, i * 4000, 0, 0}, sample);
    }
    const std::vector<Swing> afterwards = analyse_swings(trace, plan.hand, {});
    REQUIRE(afterwards.size() == 6);
    REQUIRE(live.swings().size() == 6);
    CHECK(told == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(live.swings()[i].index == i + 1);
        CHECK(live.swings()[i].events.impact->time_s ==
              doctest::Approx(afterwards[i].events.impact->time_s)
                  .epsilon(0.03 / afterwards[i].events.impact->time_s));
    }
}
