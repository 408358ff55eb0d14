// The teaching numbers on motions whose answers follow from physics or geometry.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "analysis/swing/cop_motion.h"
#include "analysis/swing/heel_toe.h"
#include "analysis/swing/momentum_closure.h"
#include "analysis/swing/rhythm.h"
#include "analysis/swing/share_curve.h"
#include "analysis/swing/share_measures.h"
#include "tests/support/minimum_jerk.h"
#include "tests/support/standing_trace.h"

using namespace footing;

namespace {

constexpr double motion_rate_hz = 1000.0;
constexpr double weight_n = 735.49875;  // 75 kg

/// Smooth step from 0 to 1.
double step_at(double t, double from_s, double length_s) {
    return testing::minimum_jerk((t - from_s) / length_s);
}

/// Six seconds of somebody on two plates: lead share and load as told.
LoadTrace made_trace(const testing::Course& share_at, const testing::Course& load_at, double seconds = 6.0) {
    return testing::standing_trace(motion_rate_hz, seconds, share_at, load_at);
}

Event at(double time_s, double u_s = 0.01) {
    return {time_s, u_s, EventSource::estimated};
}

/// Address before 2.0 s, takeaway 2.0, turnaround 2.8, impact 3.1, finish 4.0.
SwingEvents usual_events() {
    SwingEvents events;
    events.address = at(1.65, 0.25 / std::sqrt(3.0));
    events.takeaway = at(2.0, 0.03);
    events.turnaround = at(2.8);
    events.top = at(2.84, 0.05);
    events.impact = at(3.1, 0.0005);
    events.finish = at(4.0, 0.1);
    return events;
}

/// 75 % at address, back to `lowest` and through to 90 %.
double usual_share(double t, double lowest, double stretch = 1.0) {
    return 0.75 - (0.75 - lowest) * step_at(t, 2.8 - 0.8 * stretch, 0.8 * stretch) +
           (0.90 - lowest) * step_at(t, 2.8, 0.4 * stretch);
}

SwingMotion motion_of(const LoadTrace& trace) {
    SwingMotion motion;
    motion.rate_hz = motion_rate_hz;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        motion.share.push_back(trace.left_n[i] / trace.total_n[i]);
        motion.smooth_load.push_back(trace.total_n[i] / weight_n);
    }
    motion.smooth_share = motion.share;
    return motion;
}

double weight_at(double) {
    return weight_n;
}

Swing swing_of(SwingKind kind, const SwingEvents& events) {
    Swing swing;
    swing.kind = kind;
    swing.events = events;
    swing.lead_share.address = ShareValue{0.75, 0.003, Verdict::inside};
    swing.tempo =
        Tempo{events.top->time_s - events.takeaway->time_s, events.impact->time_s - events.top->time_s, 0.0};
    return swing;
}

SwingEvents shifted(SwingEvents events, double by_s) {
    for (const NamedEvent& named : named_events) {
        if (auto& event = events.*named.member) event->time_s += by_s;
    }
    return events;
}

}  // namespace

TEST_CASE("time under a floor: a straight fall and rise through it, and what the uncertainty leaves open") {
    // From 0.6 down to 0.4 within 0.4 s and up again: 0.4 s under 0.5.
    const LoadTrace trace = made_trace(
        [](double t) { return t < 2.0 || t > 2.8 ? 0.6 : 0.6 - 0.2 * (1.0 - std::abs(t - 2.4) / 0.4); },
        weight_at);
    const auto below = measure_time_below(motion_of(trace), usual_events(), 0.5, 0.01);
    REQUIRE(below);
    CHECK(below->time_s == doctest::Approx(0.4).epsilon(0.006));
    CHECK(below->surely_s == doctest::Approx(0.32).epsilon(0.01));  // under 0.48
    CHECK(below->possibly_s == doctest::Approx(0.48).epsilon(0.01));
    CHECK(measure_time_below(motion_of(trace), usual_events(), 0.3, 0.01)->possibly_s == 0.0);
    CHECK_FALSE(measure_time_below(motion_of(trace), SwingEvents{}, 0.5, 0.01).has_value());
}

TEST_CASE("the load's return: a minimum-jerk step is fastest in its middle, 1.875 times its mean speed") {
    // Flash & Hogan 1985, J Neurosci 5:1688: peak speed 1.875 A / T.
    const LoadTrace trace = made_trace([](double t) { return usual_share(t, 0.60); }, weight_at);
    const auto back = measure_load_return(motion_of(trace), usual_events());
    REQUIRE(back);
    CHECK(back->peak_per_s == doctest::Approx(1.875 * 0.30 / 0.4).epsilon(0.01));
    CHECK(back->time_s == doctest::Approx(3.0).epsilon(0.002));
    CHECK(back->u_per_s == doctest::Approx(0.0));
}

TEST_CASE("the CoP's way along a straight line there and back, and its ranges") {
    LoadTrace trace = made_trace([](double) { return 0.7; }, weight_at);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double t = trace.time_s[i];
        const double there = step_at(t, 2.2, 0.5) - step_at(t, 3.0, 0.6);
        trace.cop_x_m[i] = -0.06 * there;  // to the left: towards a right-handed golfer's target
        trace.cop_y_m[i] = 0.08 * there;
    }
    const auto travel = measure_cop_travel(trace, Hand::right, usual_events());
    REQUIRE(travel);
    CHECK(travel->range_x_m == doctest::Approx(0.06).epsilon(0.01));
    CHECK(travel->range_y_m == doctest::Approx(0.08).epsilon(0.01));
    CHECK(travel->path_m == doctest::Approx(0.2).epsilon(0.01));  // twice the hypotenuse of 6 and 8 cm
    SwingEvents unfinished = usual_events();
    unfinished.finish.reset();
    CHECK_FALSE(measure_cop_travel(trace, Hand::right, unfinished).has_value());
}

TEST_CASE("short sway: a CoP that circles is as far from its mean as the circle's radius") {
    LoadTrace trace = made_trace([](double) { return 0.7; }, weight_at);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        trace.cop_x_m[i] = 0.003 * std::cos(4.0 * std::numbers::pi * trace.time_s[i]);
        trace.cop_y_m[i] = 0.003 * std::sin(4.0 * std::numbers::pi * trace.time_s[i]);
    }
    const auto sway = measure_short_sway(trace, Hand::right, 2.0, 2.5, true);
    REQUIRE(sway);
    CHECK(sway->window_s == doctest::Approx(0.5));
    CHECK(sway->cop_rms_m == doctest::Approx(0.003).epsilon(0.01));
    CHECK(sway->share_sd.value() == doctest::Approx(0.0));
    CHECK_FALSE(measure_short_sway(trace, Hand::right, 2.0, 2.45, true).has_value());  // too short
    CHECK_FALSE(measure_short_sway(trace, Hand::right, 2.0, 2.5, false)->share_sd.has_value());
    trace.cop_x_m[2100] = unknown;
    CHECK_FALSE(measure_short_sway(trace, Hand::right, 2.0, 2.5, true).has_value());
}

TEST_CASE("momentum closes whatever happens between two moments of rest") {
    // z = -0.1 (1 - cos 2 pi t) / 2 m for one second: mean load is m g exactly, peak 1.2013 body weights.
    const auto load = [](double t) {
        const bool moves = t >= 2.3 && t < 3.3;
        const double acceleration = moves ? -0.05 * 4.0 * std::numbers::pi * std::numbers::pi *
                                                std::cos(2.0 * std::numbers::pi * (t - 2.3))
                                          : 0.0;
        return 75.0 * (standard_gravity_m_s2 + acceleration);
    };
    LoadTrace trace = made_trace([](double) { return 0.7; }, load);
    const auto closed = measure_momentum(trace, usual_events());
    REQUIRE(closed);
    CHECK(std::abs(closed->residual_bw) < 1e-4);
    CHECK(closed->verdict == Closure::closed);
    CHECK(closed->tolerance_bw < 0.01);
    // One plate reads 3 % too much, and the weight moves onto it: the sum no longer holds.
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double share = 0.5 + 0.45 * step_at(trace.time_s[i], 2.0, 0.5);
        trace.total_n[i] *= 1.03 * share + (1.0 - share);
    }
    const auto open = measure_momentum(trace, usual_events());
    REQUIRE(open);
    CHECK(open->residual_bw == doctest::Approx(0.03 * 0.45).epsilon(0.2));
    CHECK(open->verdict == Closure::open);
}

TEST_CASE("toe share of a plate is that of its toe cells, by moments") {
    PlateLayout layout;
    const std::vector<PointM> cells{{-0.13, 0.17}, {0.13, 0.17}, {-0.13, -0.17}, {0.13, -0.17}};
    layout.plates = {{"left", {-0.2, 0.05}, cells}, {"right", {0.2, 0.05}, cells}};
    LoadTrace trace = made_trace([](double) { return 0.7; }, weight_at);
    // Toe cells bear 120 + 80 N of 500 N: the CoP lies at sum(f y)/sum(f).
    const double y_m = 0.05 + (200.0 * 0.17 - 300.0 * 0.17) / 500.0;
    std::ranges::fill(trace.left_y_m, y_m);
    std::ranges::fill(trace.right_y_m, unknown);
    const auto toes = measure_heel_toe(trace, layout, Hand::right, usual_events());
    REQUIRE(toes);
    CHECK(toes->lead.address.value() == doctest::Approx(0.4));
    CHECK(toes->lead.finish.value() == doctest::Approx(0.4));
    CHECK_FALSE(toes->trail.address.has_value());  // nobody on it
    CHECK(measure_heel_toe(trace, layout, Hand::left, usual_events())->trail.impact.value() ==
          doctest::Approx(0.4));
    layout.plates[0].cells[1].y_m = 0.10;  // no row any more
    CHECK_FALSE(measure_heel_toe(trace, layout, Hand::right, usual_events()).has_value());
    layout.plates.pop_back();
    CHECK_FALSE(measure_heel_toe(trace, layout, Hand::right, usual_events()).has_value());
}

TEST_CASE("abruptness: the noise that the address shows is taken away; a jerk before impact is not") {
    std::mt19937 random(3);
    std::normal_distribution<double> noise(0.0, 0.002);
    const auto abruptness = [&](double jerk_share, bool noisy) {
        const LoadTrace trace = made_trace(
            [&](double t) {
                const double jolt = jerk_share * std::exp(-0.5 * std::pow((t - 3.05) / 0.025, 2));
                return usual_share(t, 0.62) + jolt + (noisy ? noise(random) : 0.0);
            },
            weight_at);
        return measure_abruptness(motion_of(trace), usual_events()).value();
    };
    const Abruptness smooth = abruptness(0.0, false);
    const Abruptness jolted = abruptness(0.02, false);
    CHECK(smooth.noise_per_s3 < 0.01 * smooth.rms_per_s3);
    CHECK(jolted.rms_per_s3 > 2.0 * smooth.rms_per_s3);
    const Abruptness noisy = abruptness(0.02, true);
    CHECK(noisy.noise_per_s3 > 1.0);
    CHECK(noisy.rms_per_s3 == doctest::Approx(jolted.rms_per_s3).epsilon(0.25));
}

TEST_CASE("landmarks of a swing fall on those of the common time, and a curve on its own axis is itself") {
    const std::vector<Landmarks> swings{{1.0, 1.8, 2.1, 3.0}, {5.0, 6.0, 6.5, 7.9}};
    const CurveAxis axis = mean_axis(swings, 101);
    CHECK(axis.landmark_s[0] == doctest::Approx(-1.3));
    CHECK(axis.landmark_s[2] == doctest::Approx(0.0));
    CHECK(axis.landmark_s[3] == doctest::Approx(1.15));
    for (const Landmarks& swing : swings) {
        for (std::size_t i = 0; i < 4; ++i)
            CHECK(warped_s(axis, swing, axis.landmark_s[i]) == doctest::Approx(swing[i]));
    }
    const LoadTrace trace = made_trace([](double t) { return usual_share(t, 0.62); }, weight_at);
    const auto marks = landmarks_of(usual_events());
    REQUIRE(marks);
    const CurveAxis own = mean_axis(std::vector<Landmarks>{*marks}, 51);
    const std::vector<double> curve = share_curve(trace, Hand::right, *marks, own);
    for (std::size_t i = 0; i < curve.size(); ++i)
        CHECK(curve[i] == doctest::Approx(usual_share(3.1 + own.time_s[i], 0.62)).epsilon(0.01));
    SwingEvents wrong = usual_events();
    wrong.impact = at(2.5);
    CHECK_FALSE(landmarks_of(wrong).has_value());
}

TEST_CASE("rhythm: the same swing again matches fully; a hurried one does not; none before leaves it open") {
    const double hurry = 0.6;
    const auto share = [hurry](double t) {
        if (t < 6.0) return usual_share(t, 0.62);
        if (t < 12.0) return usual_share(t - 6.0, 0.62);
        return usual_share(t - 12.0, 0.62, hurry);
    };
    const LoadTrace trace = made_trace(share, weight_at, 18.0);
    const SwingEvents usual = usual_events();
    SwingEvents quick = usual;
    quick.takeaway = at(2.8 - 0.8 * hurry, 0.03);
    quick.top = at(2.8 + 0.04 * hurry, 0.05);
    quick.impact = at(2.8 + 0.3 * hurry, 0.0005);
    std::vector<Swing> swings{swing_of(SwingKind::practice, usual),
                              swing_of(SwingKind::shot, shifted(usual, 6.0)),
                              swing_of(SwingKind::shot, shifted(quick, 12.0))};
    match_rhythm(trace, Hand::right, swings);
    REQUIRE(swings[1].numbers.rhythm);
    CHECK(swings[1].numbers.rhythm->match_percent == doctest::Approx(100.0).epsilon(0.001));
    CHECK(swings[1].numbers.rhythm->backswing_difference_s == doctest::Approx(0.0));
    CHECK_FALSE(swings[1].numbers.rhythm->practice_match_percent.has_value());
    CHECK_FALSE(swings[0].numbers.rhythm.has_value());
    CHECK_FALSE(swings[2].numbers.rhythm.has_value());  // no practice swing since the shot before
    CHECK_FALSE(swings[0].numbers.practice_swings_before.has_value());
    CHECK(swings[1].numbers.practice_swings_before == 1);
    CHECK(swings[2].numbers.practice_swings_before == 0);
    std::vector<Swing> unknown_tempo = swings;
    unknown_tempo[0].tempo.reset();
    match_rhythm(trace, Hand::right, unknown_tempo);
    CHECK(unknown_tempo[1].numbers.practice_swings_before == 1);  // seen, though not compared

    std::swap(swings[1].kind, swings[2].kind);
    swings[1].kind = SwingKind::practice;
    match_rhythm(trace, Hand::right, swings);
    REQUIRE(swings[2].numbers.rhythm);
    const RhythmMatch& hurried = *swings[2].numbers.rhythm;
    CHECK(hurried.practice_swings == 2);
    CHECK(hurried.practice_match_percent.value() == doctest::Approx(100.0).epsilon(0.001));
    CHECK(hurried.backswing_difference_s == doctest::Approx(0.84 * (hurry - 1.0)).epsilon(0.001));
    // Both durations are 0.6 of the usual ones, the shape is the same: 100 (0.36)^(1/3).
    CHECK(hurried.shape_correlation.value() == doctest::Approx(1.0).epsilon(0.01));
    CHECK(hurried.match_percent == doctest::Approx(100.0 * std::cbrt(hurry * hurry)).epsilon(0.01));
    CHECK(rhythm_match_percent({0.8, 0.3, 0.0}, {0.8, 0.3, 0.0}, -0.5) == 0.0);
    CHECK(rhythm_match_percent({0.8, 0.3, 0.0}, {0.4, 0.3, 0.0}, std::nullopt) ==
          doctest::Approx(100.0 * std::sqrt(0.5)));
}
