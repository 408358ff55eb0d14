// Teaching numbers of whole made-up lessons: what is known must be plausible, what cannot be known absent.
#include <doctest/doctest.h>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_generator.h"

using namespace footing;

TEST_CASE("numbers of a made-up lesson: balanced, held, within what a body can do") {
    for (const auto shape : {testing::MotionShape::minimum_jerk, testing::MotionShape::logistic}) {
        testing::LessonPlan plan;
        plan.shape = shape;
        plan.seed = 77;
        plan.swings = 8;
        plan.rate_hz = 250.0;
        plan.with_distractions = false;
        const testing::GeneratedLesson lesson = generate_lesson(plan);
        const std::vector<Swing> swings = analyse_swings(lesson.trace, plan.hand, {}, {});
        REQUIRE(swings.size() >= 6);
        std::size_t told = 0;
        for (const Swing& swing : swings) {
            CAPTURE(swing.index);
            const SwingNumbers& numbers = swing.numbers;
            CHECK(numbers.time_below.has_value() == (swing.events.takeaway && swing.events.impact));
            if (!numbers.time_below) continue;  // a start that cannot be seen in the load
            ++told;
            CHECK(numbers.time_below->surely_s <= numbers.time_below->time_s);
            CHECK(numbers.time_below->time_s <= numbers.time_below->possibly_s);
            if (swing.lead_share.lowest && swing.lead_share.lowest->value > 0.52)
                CHECK(numbers.time_below->surely_s == 0.0);
            if (numbers.load_return) {
                CHECK(numbers.load_return->peak_per_s > 0.0);
                CHECK(numbers.load_return->peak_per_s < 10.0);
            }
            if (numbers.cop_travel) {
                CHECK(numbers.cop_travel->path_m >= numbers.cop_travel->range_x_m);
                CHECK(numbers.cop_travel->path_m >= numbers.cop_travel->range_y_m);
                CHECK(numbers.cop_travel->range_x_m < 0.6);
            }
            if (numbers.address_sway) CHECK(numbers.address_sway->cop_rms_m < 0.03);
            if (swing.events.finish) {
                REQUIRE(numbers.finish_hold);
                CHECK(numbers.finish_hold->held_s > 0.1);  // still for 0.3 s, of which 0.12 are before it
            }
            CHECK_FALSE(numbers.rhythm.has_value());  // no trigger: nobody knows which swing was a shot
        }
        CHECK(2 * told > swings.size());
    }
}

TEST_CASE("feet that cannot be told apart have no numbers of the share, but the others") {
    testing::LessonPlan plan;
    plan.seed = 5;
    plan.swings = 4;
    plan.rate_hz = 250.0;
    plan.with_distractions = false;
    plan.feet_known = false;
    const testing::GeneratedLesson lesson = generate_lesson(plan);
    const std::vector<Swing> swings = analyse_swings(lesson.trace, plan.hand, {}, {});
    REQUIRE_FALSE(swings.empty());
    for (const Swing& swing : swings) {
        CHECK_FALSE(swing.numbers.time_below.has_value());
        CHECK_FALSE(swing.numbers.load_return.has_value());
        CHECK_FALSE(swing.numbers.abruptness.has_value());
        if (swing.events.address && swing.events.finish) CHECK(swing.numbers.cop_travel.has_value());
    }
}
