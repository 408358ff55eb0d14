// Golfers whose weight is back on the lead foot long before they push and strike, made so that turnaround and
// push are known by construction.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "analysis/swing/analyse_swings.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/swing_finder.h"
#include "tests/support/minimum_jerk.h"
#include "tests/support/standing_trace.h"

using namespace footing;

namespace {

constexpr double turns_s = 4.25;
constexpr double pushes_s = 5.0;

/// 75 % at first, 65 % at the turn, 98 % 0.4 s later, less while the arms go through, 95 % in the end; a
/// little sway.
double early_share(double t) {
    return 0.75 - 0.10 * testing::minimum_jerk(t, 4.0, turns_s) +
           0.33 * testing::minimum_jerk(t, turns_s, 4.62) - 0.13 * testing::minimum_jerk(t, 4.8, 5.22) +
           0.10 * testing::minimum_jerk(t, 5.22, 5.6) + 0.001 * std::sin(3.0 * t);
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

TEST_CASE("without feet no second reading: which push it was cannot be weighed") {
    // A push at the strike and a larger recoil half a second later.
    const auto recoiling_n = [](double t) {
        const auto bump = [t](double at_s, double width_s) {
            return std::exp(-0.5 * std::pow((t - at_s) / width_s, 2.0));
        };
        return 750.0 * (1.0 + 0.05 * bump(4.55, 0.06) - 0.03 * bump(4.8, 0.1) + 0.08 * bump(5.05, 0.06) -
                        0.0316 * bump(5.35, 0.15) + 0.0005 * std::sin(11.0 * t));
    };
    LoadTrace trace = testing::standing_trace(250.0, 9.0, early_share, recoiling_n);
    trace.left_n.assign(trace.size(), unknown);
    trace.right_n.assign(trace.size(), unknown);
    const StanceSignals signals = stance_signals(trace, Hand::right, {});
    REQUIRE_FALSE(signals.feet_known);
    for (const SwingCandidate& candidate : weigh_candidates(signals, {})) CHECK_FALSE(candidate.pushes_later);
}

TEST_CASE("a push that belongs to a return of its own is not the one before's") {
    // Back and forth twice, and a push at the second return only.
    const auto twice = [](double t) {
        return 0.75 - 0.10 * testing::minimum_jerk(t, 4.0, 4.25) +
               0.12 * testing::minimum_jerk(t, 4.25, 4.5) - 0.10 * testing::minimum_jerk(t, 4.5, 4.75) +
               0.25 * testing::minimum_jerk(t, 4.8, 5.05) + 0.001 * std::sin(3.0 * t);
    };
    const StanceSignals signals =
        stance_signals(testing::standing_trace(250.0, 9.0, twice, late_load_n), Hand::right, {});
    bool looked = false;
    for (const SwingCandidate& candidate : weigh_candidates(signals, {})) {
        CHECK_FALSE(candidate.pushes_later);
        looked = looked || std::abs(signals.time_s(static_cast<double>(candidate.middle)) - 4.4) < 0.15;
    }
    CHECK(looked);
}

TEST_CASE("a trigger at a later push is believed without a doubt, and teaches the swings without one") {
    constexpr double every_s = 10.0;
    const auto in_turn = [](double t) { return std::fmod(t, every_s); };
    LoadTrace trace = testing::standing_trace(
        250.0, 5.0 * every_s,
        [&](double t) {
            return early_share(in_turn(t)) - 0.20 * testing::minimum_jerk(in_turn(t), 7.5, 9.0);
        },
        [&](double t) { return late_load_n(in_turn(t)); });
    constexpr double struck_s = pushes_s + 0.05;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double t = trace.time_s[i];
        trace.trigger[i] = t < 4.0 * every_s && std::abs(in_turn(t) - struck_s - 0.005) < 0.006 ? 1 : 0;
    }
    const std::vector<Swing> swings = analyse_swings(trace, Hand::right, {});
    REQUIRE(swings.size() == 5);
    const std::optional<double> lag_s = trigger_lag_s(swings);
    REQUIRE(lag_s);
    CHECK(std::abs(*lag_s) < doubtful_trigger_lag_s);
    const Event& untriggered = *swings.back().events.impact;
    CHECK(untriggered.source == EventSource::estimated);
    CHECK(std::abs(untriggered.time_s - 4.0 * every_s - struck_s) < 0.03);
}
