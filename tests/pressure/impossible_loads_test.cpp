// Values that no body makes are bridged, and what a body does make is left alone.
#include "analysis/pressure/impossible_loads.h"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/support/standing_trace.h"

using namespace footing;

namespace {

/// Half of 700 N on each foot, but for what a test puts there.
LoadTrace standing() {
    return testing::standing_trace(
        200.0, 2.0, [](double) { return 0.5; }, [](double) { return 700.0; });
}

}  // namespace

TEST_CASE("up to three damaged values in a row are bridged and marked, either way") {
    for (const double damaged_n : {-540.0, 5000.0}) {
        for (std::size_t length = 1; length <= 3; ++length) {
            LoadTrace trace = standing();
            for (std::size_t i = 100; i < 100 + length; ++i) {
                trace.left_n[i] = damaged_n;
                trace.total_n[i] = damaged_n + 350.0;
            }
            CHECK(bridge_impossible_loads(trace) == length);
            for (std::size_t i = 99; i <= 100 + length; ++i) {
                CHECK(trace.left_n[i] == doctest::Approx(350.0));
                CHECK(trace.total_n[i] == doctest::Approx(700.0));
                CHECK(trace.bridged[i] == (i >= 100 && i < 100 + length ? 1 : 0));
            }
        }
    }
}

TEST_CASE("damage on both feet that leaves the total alone is seen by each foot") {
    LoadTrace trace = standing();
    trace.left_n[100] = 1000.0;
    trace.right_n[100] = -300.0;
    CHECK(bridge_impossible_loads(trace) == 1);
    CHECK(trace.right_n[100] == doctest::Approx(350.0));
}

TEST_CASE("what lasts, what stays and what a strike shakes is left alone") {
    SUBCASE("a foot in the air for 20 ms") {
        LoadTrace trace = standing();
        for (std::size_t i = 100; i < 104; ++i) trace.left_n[i] = 0.0;
        CHECK(bridge_impossible_loads(trace) == 0);
    }
    SUBCASE("somebody steps on") {
        LoadTrace trace = standing();
        for (std::size_t i = 0; i < 100; ++i) trace.left_n[i] = trace.total_n[i] = 0.0;
        CHECK(bridge_impossible_loads(trace) == 0);
    }
    SUBCASE("a ripple of 60 N") {
        LoadTrace trace = standing();
        for (std::size_t i = 100; i < 120; ++i) trace.left_n[i] += i % 2 == 0 ? 60.0 : -60.0;
        CHECK(bridge_impossible_loads(trace) == 0);
    }
    SUBCASE("the first and the last value") {
        LoadTrace trace = standing();
        trace.left_n.front() = -900.0;
        trace.left_n.back() = -900.0;
        CHECK(bridge_impossible_loads(trace) == 0);
    }
    SUBCASE("feet that cannot be told apart, nobody there, one instant, none") {
        LoadTrace trace = standing();
        trace.left_n.assign(trace.size(), unknown);
        trace.right_n.assign(trace.size(), unknown);
        CHECK(bridge_impossible_loads(trace) == 0);
        LoadTrace none;
        CHECK(bridge_impossible_loads(none) == 0);
    }
}
