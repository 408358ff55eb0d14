// How like a movement is to a golfer's sure swings, and what that does to its odds.
#include "analysis/swing/swing_likeness.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

#include "analysis/swing/swing_odds.h"
#include "tests/support/swing_generator.h"

using namespace footing;

namespace {

double of(const Likeness& likeness, LikenessSign sign) {
    return likeness[static_cast<std::size_t>(sign)];
}

/// Somebody stands; load and share about the push at entry 200 are given as functions of the time from it, s.
struct Movement {
    StanceSignals signals;
    SwingCandidate candidate;
};

Movement movement(auto load_bw, auto share) {
    Movement made;
    made.signals.rate_hz = 100.0;
    for (int i = 0; i < 400; ++i) {
        const double t = (i - 200) / 100.0;
        made.signals.load_bw.push_back(load_bw(t));
        made.signals.share.push_back(share(t));
    }
    made.signals.usable.assign(400, 1);
    made.candidate.quiet_from = 50;
    made.candidate.quiet_to = 80;
    made.candidate.push_peak = 200;
    made.candidate.signs = SwingSigns{};
    return made;
}

SwingPortrait portrait_with(auto load_bw, auto share) {
    const Movement made = movement(load_bw, share);
    const auto portrait = portrait_of(made.candidate, made.signals);
    REQUIRE(portrait);
    return *portrait;
}

double cosine(double t) {
    return std::cos(2.0 * std::numbers::pi * t / 0.9);
}
double sine(double t) {
    return std::sin(2.0 * std::numbers::pi * t / 0.9);
}

}  // namespace

TEST_CASE("curves are as like as their correlation, whatever their size and level") {
    // Pearson's correlation: 1 with itself, -1 turned over, 0 of sine and cosine over a whole period (any
    // book of statistics; computed by hand).
    const SwingPortrait one = portrait_with([](double t) { return 1.0 + 0.1 * sine(t); },
                                            [](double t) { return 0.7 + 0.02 * sine(t); });
    const SwingPortrait larger = portrait_with([](double t) { return 1.3 + 0.4 * sine(t); },
                                               [](double t) { return 0.6 - 0.01 * sine(t); });
    const SwingPortrait other = portrait_with([](double t) { return 1.0 + 0.1 * cosine(t); },
                                              [](double t) { return 0.7 + 0.02 * cosine(t); });
    const auto alike = [](const SwingPortrait& a, const SwingPortrait& b, LikenessSign sign) {
        const SwingPortrait* others[] = {&b};
        return of(likeness_of(a, others), sign);
    };
    CHECK(alike(one, one, LikenessSign::load_alike) == doctest::Approx(1.0));
    CHECK(alike(one, larger, LikenessSign::load_alike) == doctest::Approx(1.0));
    CHECK(alike(one, larger, LikenessSign::share_alike) == doctest::Approx(-1.0));
    // Both ends of the period are entries of it, which leaves a little.
    CHECK(std::abs(alike(one, other, LikenessSign::load_alike)) < 0.02);
    CHECK(std::abs(alike(one, other, LikenessSign::share_alike)) < 0.02);
    CHECK(alike(one, one, LikenessSign::address_apart) == 0.0);
    CHECK(alike(one, larger, LikenessSign::address_apart) ==
          doctest::Approx(std::abs(one.address_share - larger.address_share)));
}

TEST_CASE("an even column is like nothing, and no number is lost over it") {
    const SwingPortrait even = portrait_with([](double) { return 1.0; }, [](double) { return 0.7; });
    const SwingPortrait one = portrait_with(sine, cosine);
    const SwingPortrait* others[] = {&even, &even};
    CHECK(of(likeness_of(one, others), LikenessSign::load_alike) == 0.0);
    CHECK(of(likeness_of(one, others), LikenessSign::share_alike) == 0.0);
}

TEST_CASE("the median of several counts, so that one that is unlike all does not") {
    const auto at = [](double log_push) {
        SwingPortrait portrait;
        portrait.load = {1.0};
        portrait.share = {1.0};
        portrait.log_push = log_push;
        return portrait;
    };
    const SwingPortrait one = at(0.0);
    const SwingPortrait near = at(0.1);
    const SwingPortrait nearer = at(0.05);
    const SwingPortrait far = at(3.0);
    const SwingPortrait* others[] = {&near, &far, &nearer};
    CHECK(of(likeness_of(one, others), LikenessSign::push_apart) == doctest::Approx(0.1));
}

TEST_CASE("there is no portrait where the recording begins or ends too near, or nobody stands there") {
    Movement made = movement(sine, cosine);
    made.candidate.push_peak = 44;
    CHECK_FALSE(portrait_of(made.candidate, made.signals));
    made.candidate.push_peak = 45;
    CHECK(portrait_of(made.candidate, made.signals));
    made.candidate.push_peak = 354;
    CHECK(portrait_of(made.candidate, made.signals));
    made.candidate.push_peak = 355;
    CHECK_FALSE(portrait_of(made.candidate, made.signals));
    made.signals.usable[310] = 0;
    made.candidate.push_peak = 354;
    CHECK_FALSE(portrait_of(made.candidate, made.signals));
}

TEST_CASE("what is like the golfer's swings is likelier one than what is not, as its odds have it") {
    const Likeness like{0.95, 0.95, 0.01, 0.01, 0.1, 0.1, 0.01};
    const Likeness unlike{0.1, 0.1, 0.2, 0.2, 1.5, 1.5, 0.2};
    for (const double by_signs : {-4.0, 0.0, 4.0}) {
        CAPTURE(by_signs);
        CHECK(swing_log_odds(by_signs, like) > swing_log_odds(by_signs, unlike) + 1.0);
    }
    CHECK(swing_log_odds(2.0, like) > swing_log_odds(0.0, like));
}

TEST_CASE("earlier swings of the golfer speak for a swing that is like them, and not for one that is not") {
    testing::LessonPlan plan;
    plan.seed = 77;
    plan.swings = 5;
    plan.rate_hz = 250.0;
    plan.with_distractions = false;
    const testing::GeneratedLesson lesson = generate_lesson(plan);
    const StanceSignals signals = stance_signals(lesson.trace, plan.hand, {});
    const auto swings = find_swings(signals, {});
    REQUIRE(swings.size() == 5);
    std::vector<SwingPortrait> earlier;
    for (std::size_t i = 1; i < swings.size(); ++i) {
        REQUIRE(swings[i].sure);
        earlier.push_back(*swings[i].portrait);
    }
    // The same, as somebody would stand on the other leg and be pulled instead of pushing.
    std::vector<SwingPortrait> others = earlier;
    for (SwingPortrait& other : others) {
        for (double& value : other.load) value = -value;
        for (double& value : other.share) value = -value;
        other.log_push += 2.0;
    }
    // The first swing by itself, so that the signals hold no other.
    testing::LessonPlan short_plan = plan;
    short_plan.swings = 1;
    const testing::GeneratedLesson first = generate_lesson(short_plan);
    const StanceSignals alone = stance_signals(first.trace, plan.hand, {});
    const auto weight_beside = [&](const std::vector<SwingPortrait>& portraits) {
        const auto found = find_swings(alone, {}, portraits);
        return found.size() == 1 ? found.front().weight : unknown;
    };
    CHECK(weight_beside(earlier) > weight_beside(others) + 1.0);
    // One swing is no measure yet.
    CHECK(weight_beside({others.front()}) == weight_beside({}));
}
