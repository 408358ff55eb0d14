// How long a made-up finish is held: the answers follow from how it was made.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "analysis/swing/events.h"
#include "analysis/swing/finish_hold.h"
#include "analysis/swing/swing_finder.h"
#include "tests/support/standing_trace.h"
#include "tests/support/swing_generator.h"

using namespace footing;

namespace {

constexpr double hold_rate_hz = 500.0;
constexpr double weight_n = 700.0;
constexpr double finish_s = 2.0;
constexpr double end_s = 8.0;

LoadTrace stand(const testing::Course& share_at, const testing::Course& load_at, double forward_m = 0.0) {
    return testing::standing_trace(hold_rate_hz, end_s, share_at, load_at, forward_m);
}

double held_share(double) {
    return 0.9;
}
double body(double) {
    return weight_n;
}

std::optional<FinishHold> hold_of(const LoadTrace& trace, double until_s = end_s) {
    SwingEvents events;
    events.finish = Event{finish_s, 0.1, EventSource::estimated};
    return measure_finish_hold(trace, Hand::right, stance_signals(trace, Hand::right, {}), events, until_s);
}

}  // namespace

TEST_CASE("a finish is held until the share has moved by five points") {
    constexpr double per_s = 0.2;  // from 5 s on: five points later by a quarter of a second
    const auto hold =
        hold_of(stand([](double t) { return 0.9 - per_s * std::clamp(t - 5.0, 0.0, 2.0); }, body));
    REQUIRE(hold);
    CHECK(hold->end == HoldEnd::left);
    CHECK(hold->held_s == doctest::Approx(3.25).epsilon(0.02));
    REQUIRE(hold->sway);
    CHECK(hold->sway->window_s == doctest::Approx(1.0).epsilon(0.01));
}

TEST_CASE("a step off the plates ends the hold as left") {
    const auto hold = hold_of(stand(held_share, [](double t) { return t < 5.0 ? weight_n : 0.0; }));
    REQUIRE(hold);
    CHECK(hold->end == HoldEnd::left);
    CHECK(hold->held_s == doctest::Approx(3.0).epsilon(0.03));
}

TEST_CASE("a hold that goes on into a gap, or to the end looked at, was held at least so long") {
    LoadTrace trace = stand(held_share, body);
    const auto whole = hold_of(trace, 7.0);
    REQUIRE(whole);
    CHECK(whole->end == HoldEnd::not_seen);
    CHECK(whole->held_s == doctest::Approx(5.0).epsilon(0.01));
    for (std::size_t i = 0; i < trace.size(); ++i)
        trace.bridged[i] = trace.time_s[i] > 4.0 && trace.time_s[i] < 4.5 ? 1 : 0;
    const auto cut = hold_of(trace, 7.0);
    REQUIRE(cut);
    CHECK(cut->end == HoldEnd::not_seen);
    CHECK(cut->held_s == doctest::Approx(2.0).epsilon(0.01));
}

TEST_CASE("where the finish's own level is not known, nothing is said of the hold") {
    CHECK_FALSE(hold_of(stand(held_share, body, unknown)));
    LoadTrace trace = stand(held_share, body);
    for (std::size_t i = 0; i < trace.size(); ++i)
        trace.bridged[i] = trace.time_s[i] > 1.9 && trace.time_s[i] < 2.2 ? 1 : 0;
    CHECK_FALSE(hold_of(trace));
}

TEST_CASE("a straight bridge looks still, but is no finish") {
    testing::LessonPlan plan;
    plan.seed = 77;
    plan.swings = 3;
    plan.rate_hz = 250.0;
    plan.with_distractions = false;
    const testing::GeneratedLesson lesson = generate_lesson(plan);
    StanceSignals signals = stance_signals(lesson.trace, plan.hand, {});
    const auto found = find_swings(signals, {});
    REQUIRE_FALSE(found.empty());
    const std::size_t next_from = found.size() > 1 ? found[1].quiet_from : signals.size() - 1;
    const SwingMotion motion = swing_motion(lesson.trace, plan.hand, signals, found[0], next_from, {});
    const auto events = [&] {
        return find_events(lesson.trace, motion, signals, found[0], next_from, {}, {});
    };
    const std::optional<Event> finish = events().finish;
    REQUIRE(finish);
    // The window that told of it begins 0.12 s before; frames are lost from 0.05 s after that on.
    const auto lost_from = static_cast<std::ptrdiff_t>((finish->time_s - 0.12 + 0.05) * signals.rate_hz);
    std::fill_n(signals.usable.begin() + lost_from, 100, std::uint8_t{0});
    CHECK_FALSE(events().finish);
}
