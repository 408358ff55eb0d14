// Golfers whose weight is back on the lead foot long before they push and strike, made so that turnaround and
// push are known by construction.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "analysis/swing/analyse_swings.h"
#include "tests/support/minimum_jerk.h"
#include "tests/support/standing_trace.h"

using namespace footing;
using testing::minimum_jerk;

namespace {

constexpr double turns_s = 4.25;
constexpr double pushes_s = 5.0;

/// 75 % at first, 65 % at the turn, 98 % 0.4 s later, less while the arms go through, 95 % in the end; a
/// little sway.
double early_share(double t) {
    return 0.75 - 0.10 * minimum_jerk(t, 4.0, turns_s) + 0.33 * minimum_jerk(t, turns_s, 4.62) -
           0.13 * minimum_jerk(t, 4.8, 5.22) + 0.10 * minimum_jerk(t, 5.22, 5.6) + 0.001 * std::sin(3.0 * t);
}

/// A push that follows a dip and is taken back: whoever begins and ends at rest has a mean load of one body
/// weight (impulse and momentum; any book of mechanics).
double late_load_n(double t) {
    const auto bump = [t](double at_s, double width_s) {
        return std::exp(-0.5 * std::pow((t - at_s) / width_s, 2.0));
    };
    return 750.0 * (1.0 + 0.20 * bump(pushes_s, 0.06) - 0.06 * bump(4.84, 0.05) -
                    (0.20 * 0.06 - 0.06 * 0.05) / 0.1 * bump(5.25, 0.1) + 0.0005 * std::sin(11.0 * t));
}

}  // namespace

TEST_CASE(
    "who shifts long before the push swings once, turns where the share is lowest and strikes at the push") {
    const LoadTrace trace = testing::standing_trace(250.0, 9.0, early_share, late_load_n);
    const std::vector<Swing> swings = analyse_swings(trace, Hand::right, {});
    REQUIRE(swings.size() == 1);
    const SwingEvents& events = swings.front().events;
    REQUIRE(events.turnaround);
    REQUIRE(events.impact);
    CHECK(std::abs(events.turnaround->time_s - turns_s) < 0.05);
    // Struck while the push is on: common practice, no source.
    CHECK(events.impact->time_s > pushes_s - 0.05);
    CHECK(events.impact->time_s < pushes_s + 0.12);
}

TEST_CASE("the same shift without any push is no swing") {
    const LoadTrace trace = testing::standing_trace(
        250.0, 9.0, early_share, [](double t) { return 750.0 * (1.0 + 0.0007 * std::sin(11.0 * t)); });
    CHECK(analyse_swings(trace, Hand::right, {}).empty());
}
