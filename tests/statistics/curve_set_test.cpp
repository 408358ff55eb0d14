#include "analysis/statistics/curve_set.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "analysis/statistics/distributions.h"

using namespace footing;

namespace {

constexpr std::size_t points = 101;

/// Smooth made-up curves: a mean that dips, and a random mixture of bumps whose spread changes along the way.
std::vector<double> random_curve(std::mt19937& random, double bump_width, bool uneven_spread) {
    std::normal_distribution<double> normal;
    const int bumps = static_cast<int>(1.0 / bump_width) + 6;
    std::vector<double> weights;
    for (int b = 0; b < bumps; ++b) weights.push_back(normal(random));
    std::vector<double> curve(points);
    for (std::size_t k = 0; k < points; ++k) {
        const double at = static_cast<double>(k) / (points - 1);
        double sum = 0.0;
        double squares = 0.0;
        for (int b = 0; b < bumps; ++b) {
            const double from_bump = (at - (b - 2) * bump_width) / bump_width;
            const double bump = std::exp(-0.5 * from_bump * from_bump);
            sum += weights[static_cast<std::size_t>(b)] * bump;
            squares += bump * bump;
        }
        const double spread = uneven_spread ? 0.01 * (1.0 + 2.0 * at) : 0.02;
        curve[k] = 0.7 - 0.1 * std::sin(std::numbers::pi * at) + spread * sum / std::sqrt(squares);
    }
    return curve;
}

double true_mean(std::size_t k) {
    return 0.7 - 0.1 * std::sin(std::numbers::pi * static_cast<double>(k) / (points - 1));
}

Curves random_curves(std::mt19937& random, std::size_t count, double bump_width) {
    Curves curves;
    for (std::size_t c = 0; c < count; ++c) curves.push_back(random_curve(random, bump_width, true));
    return curves;
}

}  // namespace

TEST_CASE("a set that does not change along the way is judged by Student's t alone") {
    // Roughness 0: the level is the two-sided quantile of t.
    CHECK(simultaneous_t_level(9.0, 0.0, 0.95) == doctest::Approx(2.262157).epsilon(1e-6));
    CHECK(simultaneous_t_level(4.0, 0.0, 0.95) == doctest::Approx(2.776445).epsilon(1e-6));
    CHECK(simultaneous_t_level(9.0, 8.0, 0.95) > 3.0);
}

TEST_CASE("the simultaneous band covers the whole true mean in about 95 of 100 sets") {
    std::mt19937 random(11);
    constexpr int trials = 800;
    for (const std::size_t count : {4U, 6U, 10U, 20U}) {
        for (const double bump_width : {0.08, 0.25}) {
            int covered = 0;
            int next_within = 0;
            for (int trial = 0; trial < trials; ++trial) {
                const auto set = curve_set(random_curves(random, count, bump_width), 0.0);
                const std::vector<double> next = random_curve(random, bump_width, true);
                bool all = true;
                bool next_all = true;
                for (std::size_t k = 0; k < points; ++k) {
                    const double reach =
                        set->band_factor * set->sd[k] / std::sqrt(static_cast<double>(count));
                    all = all && std::abs(set->mean[k] - true_mean(k)) <= reach;
                    next_all = next_all && std::abs(next[k] - set->mean[k]) <= set->next_factor * set->sd[k];
                }
                covered += all ? 1 : 0;
                next_within += next_all ? 1 : 0;
            }
            const double percent = 100.0 * covered / trials;
            MESSAGE(count, " curves, bumps of ", bump_width, ": the band covers ", percent,
                    " %, the next curve lies within its band in ", 100.0 * next_within / trials, " %");
            CHECK(percent > 92.5);
            CHECK(percent < 99.0);
            CHECK(100.0 * next_within / trials > 92.5);
        }
    }
}

TEST_CASE("of alike curves one is called odd in at most 5 of 100 sets; a truly odd one is found") {
    std::mt19937 random(12);
    constexpr int trials = 600;
    int false_alarms = 0;
    int found = 0;
    for (int trial = 0; trial < trials; ++trial) {
        Curves curves = random_curves(random, 8, 0.2);
        for (const OddCurve& odd : odd_curves(curves, 0.0)) {
            if (odd.p >= 0.05) continue;
            ++false_alarms;
            break;
        }
        // One that goes its own way by eight times the spread, for a fifth of the time.
        for (std::size_t k = 40; k < 60; ++k) curves[3][k] += 8.0 * 0.01 * (1.0 + 2.0 * 0.5);
        const std::vector<OddCurve> judged = odd_curves(curves, 0.0);
        REQUIRE(judged.size() == 8);
        found += judged[3].p < 0.05 ? 1 : 0;
    }
    MESSAGE("false alarms in ", 100.0 * false_alarms / trials, " % of sets; the odd one found in ",
            100.0 * found / trials, " %");
    CHECK(false_alarms <= 0.065 * trials);
    CHECK(found > 0.8 * trials);
}

TEST_CASE("too few, uneven or unknown curves are no set") {
    std::mt19937 random(13);
    CHECK_FALSE(curve_set(random_curves(random, 2, 0.2), 0.0).has_value());
    CHECK(odd_curves(random_curves(random, 4, 0.2), 0.0).empty());
    Curves uneven = random_curves(random, 3, 0.2);
    uneven[1].pop_back();
    CHECK_FALSE(curve_set(uneven, 0.0).has_value());
    Curves broken = random_curves(random, 3, 0.2);
    broken[2][5] = std::nan("");
    CHECK_FALSE(curve_set(broken, 0.0).has_value());
    CHECK_FALSE(curve_set(Curves(3, std::vector<double>(10, 0.7)), 0.0).has_value());  // all one curve
}

TEST_CASE("a spread smaller than what measuring adds is not believed") {
    Curves alike(6, std::vector<double>(10, 0.7));
    for (std::size_t c = 0; c < alike.size(); ++c) alike[c][3] += 1e-6 * static_cast<double>(c);
    alike[5][7] += 0.0005;
    const auto judged = odd_curves(alike, 0.002);
    REQUIRE(judged.size() == 6);
    CHECK(judged[5].p > 0.5);
}
