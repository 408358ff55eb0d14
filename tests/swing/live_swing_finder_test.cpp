#include "analysis/swing/live_swing_finder.h"

#include <doctest/doctest.h>

#include <cmath>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_accuracy.h"
#include "tests/support/trace_slice.h"

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
    const std::vector<Swing> afterwards = analyse_swings(trace, plan.hand, {});
    // Of each swing: when its impact, and when its finish, was first told rightly while it was under way.
    std::vector<double> impact_told_s(afterwards.size(), 1e9);
    std::vector<double> finish_told_s(afterwards.size(), 1e9);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        told += live.add({1000 + i, i * 4000, 0, 0}, sample_at(trace, i));
        if (!live.under_way()) continue;
        const auto look = [&](const std::optional<Event>& now, const std::optional<Event>& then,
                              double& first_s) {
            if (now && then && std::abs(now->time_s - then->time_s) <= 2.0 * then->u_s)
                first_s = std::min(first_s, trace.time_s[i]);
        };
        for (std::size_t k = 0; k < afterwards.size(); ++k) {
            look(live.under_way()->impact, afterwards[k].events.impact, impact_told_s[k]);
            look(live.under_way()->finish, afterwards[k].events.finish, finish_told_s[k]);
        }
    }
    CHECK_FALSE(live.under_way());
    for (std::size_t k = 0; k < afterwards.size(); ++k) {
        CHECK(impact_told_s[k] < afterwards[k].events.impact->time_s + 0.25);
        CHECK(finish_told_s[k] < afterwards[k].events.finish->time_s + 0.45);
    }
    REQUIRE(afterwards.size() == 6);
    REQUIRE(live.swings().size() == 6);
    CHECK(told == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(live.swings()[i].index == i + 1);
        CHECK(live.swings()[i].events.impact->time_s ==
              doctest::Approx(afterwards[i].events.impact->time_s)
                  .epsilon(0.03 / afterwards[i].events.impact->time_s));
        // All other instants are told from the start of the recording too, however long ago that was.
        const Swing& now = live.swings()[i];
        const Swing& then = afterwards[i];
        REQUIRE(now.vertical);
        REQUIRE(now.numbers.load_return);
        REQUIRE(now.numbers.momentum);
        CHECK(std::abs(now.vertical->max_time_s - then.vertical->max_time_s) < 0.1);
        CHECK(std::abs(now.numbers.load_return->time_s - then.numbers.load_return->time_s) < 0.1);
        CHECK(std::abs(now.numbers.momentum->from_s - then.numbers.momentum->from_s) < 1.0);
        CHECK(std::abs(now.numbers.momentum->to_s - then.numbers.momentum->to_s) < 1.0);
    }
}
