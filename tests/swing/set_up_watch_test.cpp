#include "analysis/swing/set_up_watch.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace footing;

namespace {

constexpr double watch_rate_hz = 500.0;

/// Somebody of 800 N with this share on the left foot, feet 0.4 m apart.
LoadSample standing(double left_share) {
    LoadSample sample;
    sample.total_n = 800.0;
    sample.left_n = 800.0 * left_share;
    sample.right_n = 800.0 - sample.left_n;
    sample.cop = PointM{0.2 * (1.0 - 2.0 * left_share), 0.012};
    return sample;
}

void stand(SetUpWatch& watch, double seconds, double left_share) {
    for (int i = 0; i < static_cast<int>(seconds * watch_rate_hz); ++i) watch.take(standing(left_share));
}

}  // namespace

TEST_CASE("nobody, then a student who stands still with three quarters on the lead foot") {
    SetUpWatch watch(watch_rate_hz, Hand::right, {0.70, 0.80});
    for (int i = 0; i < 500; ++i) watch.take(LoadSample{});
    CHECK(watch.reading().stance == Stance::nobody);
    CHECK_FALSE(watch.reading().share.has_value());
    stand(watch, 0.2, 0.75);
    CHECK(watch.reading().stance == Stance::moving);  // too short to tell
    stand(watch, 0.8, 0.75);
    const SetUpReading& now = watch.reading();
    REQUIRE(now.stance == Stance::still);
    REQUIRE(now.settled.has_value());
    CHECK(now.settled->value == doctest::Approx(0.75));
    CHECK(now.settled->verdict == Verdict::inside);
    CHECK(now.still_for_s == doctest::Approx(1.0).epsilon(0.05));
    CHECK(*now.sway_m == doctest::Approx(0.0));
    CHECK(now.cop_m->x_m == doctest::Approx(0.1));  // lead is left, the target is to the left: x towards it
    CHECK(now.cop_m->y_m == doctest::Approx(0.012));
}

TEST_CASE("the same loads are a trail-side set-up for a left-handed golfer") {
    SetUpWatch watch(watch_rate_hz, Hand::left, {0.70, 0.80});
    stand(watch, 1.0, 0.75);
    CHECK(watch.reading().settled->value == doctest::Approx(0.25));
    CHECK(watch.reading().settled->verdict == Verdict::below);
}

TEST_CASE("at the band's edge the uncertainty does not allow a decision") {
    SetUpWatch watch(watch_rate_hz, Hand::right, {0.70, 0.80});
    stand(watch, 1.0, 0.70);
    CHECK(watch.reading().settled->verdict == Verdict::too_close);
}

TEST_CASE("a waggle is no set-up, and the bob comes after the weight") {
    SetUpWatch watch(watch_rate_hz, Hand::right, {0.70, 0.80});
    stand(watch, 1.0, 0.60);
    for (int i = 0; i < 100; ++i) watch.take(standing(0.60 + 0.15 * i / 100.0));
    const SetUpReading& now = watch.reading();
    CHECK(now.stance == Stance::moving);
    CHECK_FALSE(now.settled.has_value());
    CHECK(now.still_for_s == 0.0);
    CHECK(*now.bob_share < *now.share - 0.02);
    stand(watch, 3.0, 0.75);
    CHECK(*watch.reading().bob_share == doctest::Approx(0.75).epsilon(0.001));
}

TEST_CASE("lost frames end a stillness") {
    SetUpWatch watch(watch_rate_hz, Hand::right, {0.70, 0.80});
    stand(watch, 1.0, 0.75);
    watch.interrupt();
    stand(watch, 0.1, 0.75);
    CHECK(watch.reading().stance == Stance::moving);
}

TEST_CASE("one plate under both feet has a stance but no share") {
    SetUpWatch watch(watch_rate_hz, Hand::right, {0.70, 0.80});
    LoadSample sample = standing(0.5);
    sample.left_n = sample.right_n = unknown;
    for (int i = 0; i < 500; ++i) watch.take(sample);
    CHECK(watch.reading().stance == Stance::still);
    CHECK_FALSE(watch.reading().settled.has_value());
}
