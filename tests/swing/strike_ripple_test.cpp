// Shot or practice swing by the ripple of the strike, and by a trigger that misses some strikes, on made-up
// lessons of which the truth is known. How a strike ripples is invented (tests/support/swing_generator): real
// bodies and floors may do otherwise.
#include "analysis/swing/strike_ripple.h"

#include <doctest/doctest.h>

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "analysis/statistics/summary.h"
#include "analysis/swing/analyse_swings.h"
#include "tests/support/swing_accuracy.h"

using namespace footing;
using namespace footing::testing;

namespace {

constexpr double pi = 3.14159265358979323846;

struct Told {
    std::size_t shots = 0;
    std::size_t practice = 0;
    std::size_t shots_told_practice = 0;
    std::size_t practice_told_shots = 0;
    std::size_t unknown = 0;
    std::size_t by_ripple = 0;

    [[nodiscard]] double part(std::size_t some, std::size_t all) const {
        return static_cast<double>(some) / static_cast<double>(std::max<std::size_t>(1, all));
    }
};

/// Two lessons of each of the eight ways of making swings.
template <typename Change>
Told tell(Conditions conditions, Change change) {
    Told told;
    for (int i = 0; i < 16; ++i) {
        LessonPlan plan =
            plan_for(static_cast<MotionShape>(i % 8), conditions, 7000 + static_cast<std::uint64_t>(i));
        plan.rate_hz = i < 8 ? 1000.0 : 250.0;
        plan.swings = 8;
        plan.practice_swings = 0.4;
        change(plan);
        const GeneratedLesson lesson = generate_lesson(plan);
        const std::vector<Swing> swings = analyse_swings(lesson.trace, plan.hand, {});
        for (const TrueSwing& truth : lesson.swings) {
            for (const Swing& swing : swings) {
                if (!swing.events.impact || std::abs(swing.events.impact->time_s - truth.impact_s) > 0.35)
                    continue;
                ++(truth.struck ? told.shots : told.practice);
                CHECK(swing.kind_source.has_value() == (swing.kind != SwingKind::unknown));
                if (swing.kind == SwingKind::unknown) ++told.unknown;
                if (swing.kind_source == KindSource::ripple) ++told.by_ripple;
                if (truth.struck && swing.kind == SwingKind::practice) ++told.shots_told_practice;
                if (!truth.struck && swing.kind == SwingKind::shot) ++told.practice_told_shots;
                break;
            }
        }
    }
    return told;
}

void say(const std::string& what, const Told& told) {
    MESSAGE(what, ": of ", told.shots, " shots ", told.shots_told_practice, " told practice, of ",
            told.practice, " practice swings ", told.practice_told_shots, " told shots; ", told.unknown,
            " unknown, ", told.by_ripple, " by ripple");
}

/// Of somebody of 800 N: a bell of a push about 2.97 s, and a jolt from 3.08 s on.
struct ShortPush {
    double push_n;
    double push_sd_s;
    double jolt_n;
};
LoadTrace trace_of(const ShortPush& given) {
    LoadTrace trace;
    trace.rate_hz = 500.0;
    for (std::size_t i = 0; i < 2500; ++i) {
        const double t = static_cast<double>(i) / trace.rate_hz;
        const double since_s = std::max(0.0, t - 3.08);
        trace.time_s.push_back(t);
        trace.total_n.push_back(
            800.0 + given.push_n * std::exp(-0.5 * std::pow((t - 2.97) / given.push_sd_s, 2)) +
            given.jolt_n * std::exp(-since_s / 0.025) * std::sin(2.0 * pi * 35.0 * since_s) +
            0.3 * std::sin(1000.0 * t * t));
        trace.bridged.push_back(0);
    }
    return trace;
}

std::optional<StrikeRipple> ripple_of(const LoadTrace& trace, double address_s, double impact_s) {
    SwingEvents events;
    events.address = Event{address_s, 0.5 / std::sqrt(12.0), EventSource::estimated};
    events.impact = Event{impact_s, 0.05, EventSource::estimated};
    return measure_strike_ripple(trace, events);
}

}  // namespace

TEST_CASE("a short push of the body is no ripple of a strike, and hides none") {
    const auto push = ripple_of(trace_of({200.0, 0.02, 0.0}), 1.5, 3.05);
    REQUIRE(push);
    CHECK_FALSE(is_seen(*push));
    const auto struck = ripple_of(trace_of({200.0, 0.02, 60.0}), 1.5, 3.05);
    REQUIRE(struck);
    CHECK(is_seen(*struck));
    CHECK(std::abs(struck->began_s - 3.08) < 0.02);
}

TEST_CASE("a swing at the very start, as marks may say, has no ripple to tell of") {
    for (const double impact_s : {0.05, 0.13, 0.135, 0.2, 0.3, 0.4})
        CHECK_NOTHROW((void)ripple_of(trace_of({0.0, 0.02, 60.0}), 0.0, impact_s));
    CHECK_FALSE(ripple_of(trace_of({0.0, 0.02, 60.0}), 0.0, 0.13));
}

TEST_CASE("a clear ripple tells shots from practice swings") {
    for (const double strike_n : {15.0, 40.0}) {
        const Told told = tell(Conditions::ordinary, [&](LessonPlan& plan) { plan.strike_n = strike_n; });
        say("ripple of " + std::to_string(static_cast<int>(strike_n)) + " N, ordinary noise", told);
        REQUIRE(told.shots > 40);
        REQUIRE(told.practice > 30);
        CHECK(told.part(told.shots_told_practice, told.shots) <= 0.03);
        CHECK(told.part(told.practice_told_shots, told.practice) <= 0.03);
        if (strike_n > 30.0) CHECK(told.part(told.unknown, told.shots + told.practice) <= 0.05);
    }
}

TEST_CASE("a ripple that the noise may hide leaves the kind unknown rather than wrong") {
    const Told told = tell(Conditions::worst, [](LessonPlan& plan) { plan.strike_n = 15.0; });
    say("ripple of 15 N, worst noise", told);
    CHECK(told.part(told.shots_told_practice, told.shots) <= 0.03);
    CHECK(told.part(told.practice_told_shots, told.practice) <= 0.03);
    CHECK(told.part(told.unknown, told.shots + told.practice) >= 0.5);
}

TEST_CASE("without a ripple, or at a rate that cannot show one, the kind is unknown") {
    const Told none = tell(Conditions::ordinary, [](LessonPlan&) {});
    say("no ripple", none);
    CHECK(none.unknown + none.by_ripple == none.shots + none.practice);
    CHECK(none.part(none.by_ripple, none.shots + none.practice) <= 0.02);
    const Told slow = tell(Conditions::quiet, [](LessonPlan& plan) {
        plan.strike_n = 40.0;
        plan.rate_hz = 100.0;
        plan.swings = 3;
    });
    CHECK(slow.unknown == slow.shots + slow.practice);
}

TEST_CASE("strikes that the trigger misses are told by their ripple; their impact is estimated") {
    const auto missing = [](LessonPlan& plan) {
        plan.with_trigger = true;
        plan.triggers_missing = 0.3;
    };
    const Told without = tell(Conditions::ordinary, missing);
    say("trigger misses 3 of 10, no ripple", without);
    CHECK(without.practice_told_shots == 0);
    CHECK(without.shots_told_practice == 0);  // nothing else could tell: rather unknown
    CHECK(without.unknown > without.practice);
    const Told with = tell(Conditions::ordinary, [&](LessonPlan& plan) {
        missing(plan);
        plan.strike_n = 40.0;
    });
    say("trigger misses 3 of 10, ripple of 40 N", with);
    CHECK(with.part(with.practice_told_shots, with.practice) <= 0.03);
    CHECK(with.part(with.shots_told_practice, with.shots) <= 0.03);
    CHECK(with.part(with.unknown, with.shots + with.practice) <= 0.05);

    LessonPlan plan = plan_for(MotionShape::spline, Conditions::ordinary, 7100);
    plan.rate_hz = 500.0;
    missing(plan);
    const GeneratedLesson lesson = generate_lesson(plan);
    const std::vector<Swing> swings = analyse_swings(lesson.trace, plan.hand, {});
    const SwingErrors errors = compare(lesson, swings);
    CHECK(errors.recall() >= 0.95);
    std::size_t missed = 0;
    for (const TrueSwing& truth : lesson.swings) {
        for (const Swing& swing : swings) {
            if (!swing.events.impact || std::abs(swing.events.impact->time_s - truth.impact_s) > 0.35)
                continue;
            CHECK((swing.events.impact->source == EventSource::measured) == truth.triggered);
            if (truth.triggered) continue;
            ++missed;
            CHECK(std::abs(swing.events.impact->time_s - truth.impact_s) < 0.1);
            CHECK(swing.events.impact->u_s >= 0.02);
        }
    }
    CHECK(missed > 3);
}

TEST_CASE("a strike that ripples is timed by its ripple") {
    std::vector<double> errors_s;
    std::size_t within = 0;
    for (int i = 0; i < 8; ++i) {
        LessonPlan plan =
            plan_for(static_cast<MotionShape>(i), Conditions::ordinary, 7200 + static_cast<std::uint64_t>(i));
        plan.rate_hz = 500.0;
        plan.swings = 6;
        plan.strike_n = 40.0;
        const GeneratedLesson lesson = generate_lesson(plan);
        for (const Swing& swing : analyse_swings(lesson.trace, plan.hand, {})) {
            if (!swing.strike_ripple || !is_seen(*swing.strike_ripple)) continue;
            const Event& impact = *swing.events.impact;
            CHECK(impact.source == EventSource::estimated);
            double error_s = 1.0;
            for (const TrueSwing& truth : lesson.swings) {
                if (std::abs(impact.time_s - truth.impact_s) < std::abs(error_s))
                    error_s = impact.time_s - truth.impact_s;
            }
            errors_s.push_back(std::abs(error_s));
            if (std::abs(error_s) <= 2.0 * impact.u_s) ++within;
        }
    }
    MESSAGE(errors_s.size(), " ripples seen in 48 strikes; error of the impact in the median ",
            1e3 * median(errors_s), " ms");
    CHECK(errors_s.size() > 40);
    CHECK(median(errors_s) < 0.010);
    CHECK(static_cast<double>(within) >= 0.9 * static_cast<double>(errors_s.size()));
}
