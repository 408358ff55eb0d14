#include "analysis/swing/strike_lag.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "analysis/statistics/summary.h"
#include "analysis/swing/analyse_swings.h"
#include "analysis/swing/impact.h"
#include "analysis/swing/live_swing_finder.h"
#include "tests/support/swing_accuracy.h"
#include "tests/support/trace_slice.h"

using namespace footing;
using namespace footing::testing;

namespace {

/// Strikes that each witness tells too early by as much.
std::vector<StrikeWitnesses> alike(const std::vector<double>& later_s) {
    std::vector<StrikeWitnesses> strikes;
    for (double one_s : later_s) strikes.push_back({one_s, one_s, one_s, one_s});
    return strikes;
}

std::vector<double> drawn(std::mt19937& random, double mean_s, double spread_s, int swings) {
    std::normal_distribution<double> lag(mean_s, spread_s);
    std::vector<double> later_s;
    for (int i = 0; i < swings; ++i) later_s.push_back(lag(random));
    return later_s;
}

/// Shots with a trigger and practice swings without, of somebody who strikes so much later than the generator
/// has it.
GeneratedLesson late_striker(LessonPlan& plan, double late_s) {
    plan.rate_hz = 500.0;
    plan.swings = 12;
    plan.with_trigger = true;
    plan.practice_swings = 0.5;
    GeneratedLesson lesson = generate_lesson(plan);
    std::vector<std::uint8_t>& trigger = lesson.trace.trigger;
    std::rotate(trigger.begin(), trigger.end() - std::lround(late_s * plan.rate_hz), trigger.end());
    for (TrueSwing& swing : lesson.swings) swing.impact_s += late_s;
    return lesson;
}

/// Of the practice swings: found less true, and how many lie within two standard uncertainties.
struct PracticeErrors {
    std::vector<double> sizes_s;
    std::size_t within = 0;
};

void add_errors(PracticeErrors& errors, const GeneratedLesson& lesson, const std::vector<Swing>& swings) {
    for (const TrueSwing& truth : lesson.swings) {
        if (truth.triggered) continue;
        for (const Swing& swing : swings) {
            const double error_s = swing.events.impact->time_s - truth.impact_s;
            if (std::abs(error_s) > 0.4) continue;
            errors.sizes_s.push_back(std::abs(error_s));
            if (std::abs(error_s) <= 2.0 * swing.events.impact->u_s) ++errors.within;
        }
    }
}

constexpr double late_s = 0.08;
constexpr int late_golfers = 8;

LessonPlan plan_of(int shape) {
    return plan_for(static_cast<MotionShape>(shape), Conditions::ordinary,
                    7400 + static_cast<std::uint64_t>(shape));
}

}  // namespace

TEST_CASE("of somebody whose strikes nobody told of nothing is known") {
    for (const StrikeLag& lag : learn_strike_lags({})) CHECK(lag.swings == 0);
    // Nor from a trigger that fired by something else.
    for (const StrikeLag& lag : learn_strike_lags(alike({0.4, -0.3, std::nan("")}))) CHECK(lag.swings == 0);
}

TEST_CASE("many strikes tell their mean, and the next one's spread is the textbook's") {
    // Standard deviation of a new observation about the mean of n: s sqrt(1 + 1/n), as in any textbook on
    // prediction intervals (from memory).
    std::mt19937 random(5);
    const std::vector<double> later_s = drawn(random, 0.06, 0.03, 200);
    const StrikeLag lag = learn_strike_lags(alike(later_s))[0];
    CHECK(lag.value_s == doctest::Approx(mean(later_s)).epsilon(0.02));
    CHECK(lag.u_s == doctest::Approx(standard_deviation(later_s) * std::sqrt(1.0 + 1.0 / 200)).epsilon(0.05));
}

TEST_CASE("what is stated of the next strike covers it, from the first one on") {
    std::mt19937 random(6);
    std::uniform_real_distribution<double> golfer_s(-0.12, 0.12);
    std::uniform_real_distribution<double> spread_s(0.01, 0.045);
    for (int swings : {1, 2, 4, 8}) {
        int within = 0;
        for (int i = 0; i < 2000; ++i) {
            const double mean_s = golfer_s(random);
            const double usual_s = spread_s(random);
            const StrikeLag lag = learn_strike_lags(alike(drawn(random, mean_s, usual_s, swings)))[0];
            const double next_s = drawn(random, mean_s, usual_s, 1)[0];
            if (std::abs(next_s - lag.value_s) <= 2.0 * lag.u_s) ++within;
        }
        CAPTURE(swings);
        CHECK(within >= 0.90 * 2000);
        CHECK(within <= 0.995 * 2000);
    }
}

TEST_CASE("a strike that is far from the others of a golfer changes nothing") {
    const std::vector<double> later_s{0.05, 0.06, 0.055, 0.062};
    std::vector<double> with_stray = later_s;
    with_stray.push_back(-0.2);
    const StrikeLag lag = learn_strike_lags(alike(with_stray))[0];
    CHECK(lag.swings == 4);
    CHECK(lag.value_s == learn_strike_lags(alike(later_s))[0].value_s);
}

TEST_CASE("a trigger that is always late moves the others, but not surely") {
    const StrikeLags usual = learn_strike_lags(alike({0.08, 0.08, 0.08, 0.08}));
    const StrikeLags late = learn_strike_lags(alike({0.24, 0.24, 0.24, 0.24}));
    CHECK(usual[0].u_s < 0.05);
    CHECK(late[0].u_s > 0.1);  // what nobody knows of anybody: 60 ms
}

TEST_CASE("no impact is told outside the way back and the recording, whatever was learned") {
    LessonPlan plan = plan_of(1);
    plan.rate_hz = 250.0;
    plan.swings = 4;
    const GeneratedLesson lesson = generate_lesson(plan);
    for (const double lag_s : {-0.24, 0.24}) {
        const EarlierSwings earlier{alike({lag_s, lag_s, lag_s}), {}};
        const std::vector<Swing> swings = analyse_swings(lesson.trace, plan.hand, {}, {}, {}, earlier);
        REQUIRE(swings.size() >= 3);
        for (const Swing& swing : swings) {
            const SwingEvents& events = swing.events;
            REQUIRE(events.impact);
            if (events.turnaround) CHECK(events.impact->time_s >= events.turnaround->time_s);
            if (events.finish) CHECK(events.impact->time_s <= events.finish->time_s);
            CHECK(events.impact->time_s <= lesson.trace.time_s.back());
        }
    }
}

TEST_CASE("of somebody unknown the peak of the push is believed, and the share where nobody pushes") {
    const Event impact = estimated_impact({5.00, 5.02, 5.30, 4.50}, {});
    CHECK(impact.time_s == doctest::Approx(5.02));
    CHECK(impact.source == EventSource::estimated);
    // More where share and push tell different things.
    CHECK(impact.u_s > 0.059);
    CHECK(impact.u_s < 0.07);
    CHECK(estimated_impact({5.30, 5.02, {}, {}}, {}).u_s > impact.u_s + 0.01);
    const Event by_share = estimated_impact({5.00, {}, 5.30, 4.50}, {});
    CHECK(by_share.time_s == doctest::Approx(5.00));
    CHECK(by_share.u_s > impact.u_s);
}

TEST_CASE("the witness that tells a golfer's strikes best is believed") {
    // The push's peak comes when it likes; its end always 20 ms before the strike.
    const std::vector<StrikeWitnesses> strikes{{0.10, -0.12, 0.02, std::nullopt},
                                               {-0.09, 0.11, 0.021, std::nullopt},
                                               {0.08, 0.10, 0.019, std::nullopt},
                                               {-0.11, -0.13, 0.02, std::nullopt}};
    const Event impact = estimated_impact({5.00, 5.10, 5.04, 4.80}, learn_strike_lags(strikes));
    CHECK(impact.time_s == doctest::Approx(5.06).epsilon(0.002));
    CHECK(impact.u_s < 0.05);
    CHECK(impact.source == EventSource::estimated);
    // Without a push the share is all there is.
    const Event by_share = estimated_impact({5.00, {}, {}, {}}, learn_strike_lags(strikes));
    CHECK(by_share.u_s > 0.05);
}

TEST_CASE("a swing teaches only where neither trigger, ripples nor coach deny that it was a shot") {
    Swing swing;
    swing.kind = SwingKind::shot;
    CHECK_FALSE(teaches(swing));  // nothing tells when it struck
    swing.strike_after_witnesses_s = StrikeWitnesses{0.05, {}, {}, {}};
    CHECK(teaches(swing));
    swing.found_kind = SwingKind::unknown;  // the coach called it a shot: a single ripple, say
    CHECK_FALSE(teaches(swing));
    swing.found_kind = SwingKind::shot;
    swing.kind = SwingKind::practice;
    CHECK_FALSE(teaches(swing));
}

TEST_CASE("a strike that the coach calls practice times no other swing") {
    LessonPlan plan = plan_of(0);
    const GeneratedLesson lesson = late_striker(plan, late_s);
    const std::vector<Swing> found = analyse_swings(lesson.trace, plan.hand, {});
    CoachMarks marks;
    for (const Swing& swing : found) {
        if (swing.events.impact->source != EventSource::measured) continue;
        CoachMark mark;
        mark.near_s = swing.events.impact->time_s;
        mark.kind = SwingKind::practice;
        marks.swings.push_back(mark);
    }
    SwingOptions blind;
    blind.use_trigger = false;
    const std::vector<Swing> untaught = analyse_swings(lesson.trace, plan.hand, {}, blind);
    const std::vector<Swing> denied = analyse_swings(lesson.trace, plan.hand, {}, {}, marks);
    std::size_t compared = 0;
    for (const Swing& swing : denied) {
        if (swing.events.impact->source == EventSource::measured) continue;
        for (const Swing& other : untaught) {
            if (std::abs(other.events.impact->time_s - swing.events.impact->time_s) > 0.5) continue;
            CHECK(swing.events.impact->time_s == doctest::Approx(other.events.impact->time_s));
            ++compared;
        }
    }
    CHECK(compared >= 3);
}

TEST_CASE("practice swings are timed by the shots of the same golfer") {
    PracticeErrors alone;
    PracticeErrors taught;
    for (int shape = 0; shape < late_golfers; ++shape) {
        LessonPlan plan = plan_of(shape);
        const GeneratedLesson lesson = late_striker(plan, late_s);
        SwingOptions blind;
        blind.use_trigger = false;
        add_errors(alone, lesson, analyse_swings(lesson.trace, plan.hand, {}, blind));
        add_errors(taught, lesson, analyse_swings(lesson.trace, plan.hand, {}));
    }
    REQUIRE(taught.sizes_s.size() > 30);
    MESSAGE("impact of ", taught.sizes_s.size(), " practice swings of golfers who strike 80 ms late: off by ",
            1e3 * median(alone.sizes_s), " ms in the median, ", 1e3 * median(taught.sizes_s),
            " ms where their shots are known");
    CHECK(median(taught.sizes_s) < 0.5 * median(alone.sizes_s));
    CHECK(median(taught.sizes_s) < 0.025);
    CHECK(static_cast<double>(taught.within) >= 0.9 * static_cast<double>(taught.sizes_s.size()));
}

TEST_CASE("live, too, earlier shots tell when a practice swing would have struck") {
    LessonPlan plan = plan_of(0);
    const GeneratedLesson lesson = late_striker(plan, late_s);
    LiveSwingFinder live(plan.rate_hz, plan.hand, {});
    for (std::size_t i = 0; i < lesson.trace.size(); ++i) {
        const std::uint16_t inputs = lesson.trace.trigger[i] != 0 ? trigger_bit : std::uint16_t{0};
        (void)live.add({i, i * 2000, 0, inputs}, sample_at(lesson.trace, i));
    }
    PracticeErrors late;
    const std::size_t half = lesson.swings.size() / 2;
    GeneratedLesson rest;
    rest.swings.assign(lesson.swings.begin() + static_cast<std::ptrdiff_t>(half), lesson.swings.end());
    add_errors(late, rest, live.swings());
    REQUIRE(late.sizes_s.size() >= 2);
    CHECK(median(late.sizes_s) < 0.03);
}
