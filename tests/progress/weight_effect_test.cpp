#include "analysis/progress/weight_effect.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "tests/support/child_process.h"

using namespace footing;

namespace {

WeighedShot shot(std::size_t cell, double share, double carry_m, double u = 0.004) {
    WeighedShot one;
    one.cell = cell;
    one.carry_m = carry_m;
    one.address = WeighedShare{share, u};
    return one;
}

/// Invented: each point more on the lead foot costs 0.4 m, and cells lie at other weights.
std::vector<WeighedShot> three_cells(double metres_per_point, unsigned seed) {
    std::mt19937 random(seed);
    std::normal_distribution<double> one(0.0, 1.0);
    std::vector<WeighedShot> shots;
    for (std::size_t cell = 0; cell < 3; ++cell) {
        for (int i = 0; i < 8; ++i) {
            const double off = 0.02 * one(random);
            const double carry_m =
                40.0 + 15.0 * static_cast<double>(cell) + metres_per_point * 100.0 * off + 2.0 * one(random);
            shots.push_back(shot(cell, 0.70 + 0.04 * static_cast<double>(cell) + off, carry_m));
        }
    }
    return shots;
}

std::vector<double> numbers(const std::string& text) {
    std::istringstream words(text);
    std::vector<double> all;
    for (double value = 0.0; words >> value;) all.push_back(value);
    return all;
}

void add(std::vector<WeighedShot>& shots, int count, Verdict verdict, StrikeQuality strike) {
    for (int i = 0; i < count; ++i) {
        WeighedShot one;
        one.verdict = verdict;
        one.strike = strike;
        shots.push_back(one);
    }
}

}  // namespace

TEST_CASE("one cell: slope, p and interval as scipy's linregress has them") {
    std::vector<WeighedShot> shots;
    std::string x;
    std::string y;
    for (const WeighedShot& one : three_cells(-0.4, 3)) {
        shots.push_back(shot(4, one.address->value, *one.carry_m));
        x += fmt::format("{:.17g},", one.address->value);
        y += fmt::format("{:.17g},", *one.carry_m);
    }
    const CarryEffect effect = weight_effects(shots).carry[0];
    const auto run = test::run_program(
        {"/usr/bin/python3", "-c",
         fmt::format("from scipy import stats\nr = stats.linregress([{}], [{}])\n"
                     "print(repr(float(r.slope)), repr(float(r.stderr * stats.t.ppf(0.975, 22))), "
                     "repr(float(r.pvalue)))",
                     x, y)});
    if (run.exit_code != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no scipy");
        return;
    }
    const std::vector<double> oracle = numbers(run.out);
    REQUIRE(oracle.size() == 3);
    CHECK(effect.silence == Silence::none);
    CHECK(effect.degrees_of_freedom == 22.0);
    CHECK(effect.per_ten_points_m == doctest::Approx(0.1 * oracle[0]).epsilon(1e-9));
    CHECK(effect.half_width_m == doctest::Approx(0.1 * oracle[1]).epsilon(1e-8));
    CHECK(effect.p == doctest::Approx(oracle[2]).epsilon(1e-8));
}

TEST_CASE("several cells: as least squares with a mean for each cell (numpy)") {
    const std::vector<WeighedShot> shots = three_cells(-1.0, 5);
    std::string rows;
    std::string y;
    for (const WeighedShot& one : shots) {
        rows += fmt::format("[{:.17g},{},{},{}],", one.address->value, int{one.cell == 0}, int{one.cell == 1},
                            int{one.cell == 2});
        y += fmt::format("{:.17g},", *one.carry_m);
    }
    const CarryEffect effect = weight_effects(shots).carry[0];
    CHECK(effect.finding == Finding::more_than_chance);
    CHECK(effect.cells == 3);
    CHECK(std::abs(effect.per_ten_points_m + 10.0) < effect.half_width_m);
    const auto run = test::run_program(
        {"/usr/bin/python3", "-c",
         fmt::format("import numpy as np\nfrom scipy import stats\nX = np.array([{}])\ny = np.array([{}])\n"
                     "b = np.linalg.lstsq(X, y, rcond=None)[0]\nr = y - X @ b\n"
                     "u = np.sqrt(r @ r / 20 * np.linalg.inv(X.T @ X)[0, 0])\n"
                     "print(repr(float(b[0])), repr(float(u * stats.t.ppf(0.975, 20))), "
                     "repr(float(2 * stats.t.sf(abs(b[0] / u), 20))))",
                     rows, y)});
    if (run.exit_code != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no scipy");
        return;
    }
    const std::vector<double> oracle = numbers(run.out);
    REQUIRE(oracle.size() == 3);
    CHECK(effect.per_ten_points_m == doctest::Approx(0.1 * oracle[0]).epsilon(1e-8));
    CHECK(effect.half_width_m == doctest::Approx(0.1 * oracle[1]).epsilon(1e-7));
    CHECK(effect.p == doctest::Approx(oracle[2]).epsilon(1e-6));
}

TEST_CASE("strike against the band, and questions judged together") {
    std::vector<WeighedShot> shots;
    add(shots, 14, Verdict::inside, StrikeQuality::good);
    add(shots, 3, Verdict::inside, StrikeQuality::poor);
    add(shots, 3, Verdict::below, StrikeQuality::good);
    add(shots, 7, Verdict::below, StrikeQuality::poor);
    add(shots, 2, Verdict::above, StrikeQuality::poor);
    add(shots, 9, Verdict::too_close, StrikeQuality::poor);  // tells nothing
    const StrikeEffect effect = weight_effects(shots).strike;
    CHECK(effect.counts.a == 14);
    CHECK(effect.counts.b == 3);
    CHECK(effect.counts.c == 3);
    CHECK(effect.counts.d == 9);
    // scipy 1.10.1: fisher_exact and contingency.odds_ratio of [[14, 3], [3, 9]].
    CHECK(effect.test.p == doctest::Approx(0.0060405694588603134).epsilon(1e-9));
    CHECK(effect.test.odds_ratio == doctest::Approx(12.395711060824441).epsilon(1e-7));
    CHECK(effect.finding == Finding::more_than_chance);
    CHECK(weight_effect_words(weight_effects(shots), DistanceUnit::yards)[2].find(
              "good 14 of 17 inside the band, 3 of 12 outside") != std::string::npos);
}

TEST_CASE("silence where there is too little") {
    std::vector<WeighedShot> few = three_cells(-0.4, 3);
    few.resize(13);  // two cells: 13 - 2 - 1 = 10
    CHECK(weight_effects(few).carry[0].silence == Silence::none);
    few.resize(12);
    WeightEffects effects = weight_effects(few);
    CHECK(effects.carry[0].silence == Silence::too_few_shots);
    CHECK(effects.carry[1].silence == Silence::too_few_shots);
    CHECK(effects.strike.silence == Silence::too_few_shots);
    for (const std::string& words : weight_effect_words(effects, DistanceUnit::metres))
        CHECK(words.find("nothing can be said") != std::string::npos);
    // Weights that differ by no more than they are uncertain.
    std::vector<WeighedShot> alike = three_cells(-0.4, 3);
    for (WeighedShot& one : alike) one.address->u = 0.03;
    CHECK(weight_effects(alike).carry[0].silence == Silence::alike);
    // Twelve strikes, all but one good: no table with these sums is unlikely.
    std::vector<WeighedShot> good;
    add(good, 6, Verdict::inside, StrikeQuality::good);
    add(good, 5, Verdict::above, StrikeQuality::good);
    add(good, 1, Verdict::above, StrikeQuality::poor);
    CHECK(weight_effects(good).strike.silence == Silence::alike);
    CHECK(weight_effects({}).carry[0].shots == 0);
}

TEST_CASE("where nothing goes together, something is found in at most about 5 of 100 students") {
    int found = 0;
    constexpr int students = 2000;
    for (int s = 0; s < students; ++s) {
        std::mt19937 random(static_cast<unsigned>(s) + 100);
        std::normal_distribution<double> one(0.0, 1.0);
        std::bernoulli_distribution half(0.5);
        std::vector<WeighedShot> shots = three_cells(0.0, static_cast<unsigned>(s));
        for (WeighedShot& shot : shots) {
            shot.lowest = WeighedShare{0.6 + 0.02 * one(random), 0.004};
            shot.verdict = half(random) ? Verdict::inside : Verdict::below;
            shot.strike = half(random) ? StrikeQuality::good : StrikeQuality::poor;
        }
        const WeightEffects effects = weight_effects(shots);
        found += effects.carry[0].finding == Finding::more_than_chance ||
                 effects.carry[1].finding == Finding::more_than_chance ||
                 effects.strike.finding == Finding::more_than_chance;
    }
    MESSAGE("found though nothing is there: ", 100.0 * found / students, " %");
    CHECK(found < 0.065 * students);
    CHECK(found > 0.02 * students);
}

TEST_CASE("the interval of the slope holds the true one in 95 of 100 cases") {
    int inside = 0;
    constexpr int students = 4000;
    for (int s = 0; s < students; ++s) {
        const CarryEffect effect = weight_effects(three_cells(-0.4, static_cast<unsigned>(s))).carry[0];
        inside += std::abs(effect.per_ten_points_m + 4.0) <= effect.half_width_m;
    }
    CHECK(std::abs(static_cast<double>(inside) / students - 0.95) < 0.02);
}
