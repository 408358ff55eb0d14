#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "analysis/pressure/load_uncertainty.h"
#include "analysis/statistics/time_mean.h"
#include "analysis/swing/verdict.h"

using namespace footing;

namespace {

PlateLayout plate_of(std::vector<PointM> cells) {
    PlateLayout layout;
    layout.plates = {{"all", {0.0, 0.0}, std::move(cells)}};
    return layout;
}

PlateLayout two_plates() {
    const std::vector<PointM> cells{{-0.1, 0.15}, {0.1, 0.15}, {-0.1, -0.15}, {0.1, -0.15}};
    PlateLayout layout;
    layout.plates = {{"left", {-0.2, 0.0}, cells}, {"right", {0.2, 0.0}, cells}};
    return layout;
}

MeanLoad stand(double left_n, double right_n) {
    MeanLoad mean;
    mean.load.total_n = left_n + right_n;
    mean.load.left_n = left_n;
    mean.load.right_n = right_n;
    mean.load.left_cop = PointM{-0.2, 0.0};
    mean.load.right_cop = PointM{0.2, 0.0};
    mean.load.cop = PointM{0.2 * (right_n - left_n) / (left_n + right_n), 0.0};
    return mean;
}

ValueUncertainty only_zero(double zero_n) {
    ValueUncertainty known;
    known.gain_relative_u = 0.0;
    known.zero_n = zero_n;
    return known;
}

}  // namespace

TEST_CASE("four corners, each known to 0.5 N, give the place to the closed form of JCGM 100, 5.1.2") {
    // u_x = sqrt(sum (x_i - x)^2 u^2) / F, worked for corners (+-0.2, +-0.3) m, 700 N at (-0.068571,
    // 0.017143).
    const LoadUncertainty plate(plate_of({{-0.2, 0.3}, {0.2, 0.3}, {-0.2, -0.3}, {0.2, -0.3}}),
                                only_zero(1.0));  // 1 N of the whole is 0.5 N of each corner
    MeanLoad mean;
    mean.load.total_n = 700.0;
    mean.load.cop = PointM{-0.068571428571, 0.017142857143};
    const LoadU u = plate.of(mean);
    CHECK(u.cop.x_m == doctest::Approx(0.000302040816).epsilon(1e-8));
    CHECK(u.cop.y_m == doctest::Approx(0.000429270567).epsilon(1e-8));
    CHECK(std::isnan(u.share));
}

TEST_CASE("two plates, each known to 1 N, give the share to the closed form") {
    // u(share) = sqrt((F2 u1)^2 + (F1 u2)^2) / (F1 + F2)^2, JCGM 100, 5.1.2.
    const LoadUncertainty plates(two_plates(), only_zero(1.0));
    CHECK(plates.of(stand(420.0, 280.0)).share == doctest::Approx(0.00103015751).epsilon(1e-8));
}

TEST_CASE("gains of both plates off by r give s (1 - s) sqrt(2) r; what they have in common gives nothing") {
    ValueUncertainty known = only_zero(0.0);
    known.gain_relative_u = 0.01;
    const double expected = 0.75 * 0.25 * std::sqrt(2.0) * 0.01;
    CHECK(LoadUncertainty(two_plates(), known).of(stand(600.0, 200.0)).share ==
          doctest::Approx(expected).epsilon(1e-12));

    known.gain_covariance.assign(64, 0.01 * 0.01);  // all gains move together
    const LoadU u = LoadUncertainty(two_plates(), known).of(stand(600.0, 200.0));
    CHECK(u.share < 1e-9);
    CHECK(u.cop.x_m < 1e-9);
    CHECK(u.left_cop.y_m < 1e-9);
    for (std::size_t i = 0; i < 64; ++i) {
        if ((i / 8 < 4) != (i % 8 < 4)) known.gain_covariance[i] = 0.0;  // each plate by itself
    }
    const LoadU apart = LoadUncertainty(two_plates(), known).of(stand(600.0, 200.0));
    CHECK(apart.share == doctest::Approx(expected).epsilon(1e-12));
    CHECK(apart.left_cop.x_m < 1e-9);  // within a plate nothing shifts …
    // … but between them: x = x_l s + x_r (1 - s).
    CHECK(apart.cop.x_m == doctest::Approx(0.4 * expected).epsilon(1e-9));
}

TEST_CASE("a zero that moved counts as a rectangular distribution between two zeros only (GUM, 4.3.7)") {
    ValueUncertainty known = only_zero(0.0);
    known.gain_relative_u = 0.0;
    known.zero_shifts = {{10.0, 20.0, {1.0, 1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0}}};
    const LoadUncertainty plates(two_plates(), known);
    MeanLoad mean = stand(600.0, 200.0);
    mean.time_s = 15.0;
    CHECK(plates.of(mean).share == doctest::Approx(0.25 * 4.0 / 800.0 / std::sqrt(3.0)).epsilon(1e-12));
    mean.time_s = 25.0;
    CHECK(plates.of(mean).share == 0.0);
}

TEST_CASE("quantisation: q^2 / 12 without noise, next to nothing from half a count of noise on") {
    // Widrow & Kollar 2008, Quantization Noise (from memory); 1/12 is GUM F.2.2.1.
    CHECK(quantisation_left(0.0) == doctest::Approx(1.0 / 12.0).epsilon(1e-4));
    CHECK(quantisation_left(0.5) < 1e-5);
    // The bias of a mean of rounded normal values, seen over all places between two counts.
    std::mt19937_64 random(1);
    std::normal_distribution<double> normal;
    for (const double noise : {0.1, 0.2, 0.3}) {
        double squares = 0.0;
        constexpr int places = 100;
        constexpr int readings = 20000;
        for (int k = 0; k < places; ++k) {
            const double truth = (k + 0.5) / places;
            double sum = 0.0;
            for (int i = 0; i < readings; ++i) sum += std::round(truth + noise * normal(random));
            squares += std::pow(sum / readings - truth, 2) / places;
        }
        CHECK(quantisation_left(noise) == doctest::Approx(squares).epsilon(0.03));
    }
}

TEST_CASE("the mean's uncertainty stands for its real scatter, also where neighbours are alike") {
    std::mt19937_64 random(7);
    std::normal_distribution<double> normal;
    for (const double alike_s : {0.0, 0.005, 0.02}) {
        const double rate_hz = 500.0;
        const double keep = alike_s > 0.0 ? std::exp(-1.0 / (alike_s * rate_hz)) : 0.0;
        int covered = 0;
        constexpr int runs = 2000;
        for (int run = 0; run < runs; ++run) {
            std::vector<double> values;
            double value = normal(random);
            for (int i = 0; i < 250; ++i) {
                value = keep * value + std::sqrt(1.0 - keep * keep) * normal(random);
                values.push_back(5.0 + value);
            }
            const TimeMean found = time_mean(values, rate_hz);
            covered += std::abs(found.mean - 5.0) <= 2.0 * found.u ? 1 : 0;
        }
        CAPTURE(alike_s);
        CHECK(covered > 0.94 * runs);  // never less sure than it says; the sway's share makes it more careful
    }
    CHECK(std::isnan(time_mean(std::vector{1.0}, 100.0).u));
}

TEST_CASE("the coach's certainty is a guard band (JCGM 106:2012, 8.3)") {
    const TargetBand band{0.70, 0.80};
    constexpr double u = 0.01;
    // One-sided normal quantiles: 1.6449 at 95 %, 2.3263 at 99 %, 0.8416 at 80 %.
    CHECK(judge(0.70 - 1.66 * u, u, band, 0.95) == Verdict::below);
    CHECK(judge(0.70 - 1.63 * u, u, band, 0.95) == Verdict::too_close);
    CHECK(judge(0.70 - 2.30 * u, u, band, 0.99) == Verdict::too_close);
    CHECK(judge(0.70 - 2.34 * u, u, band, 0.99) == Verdict::below);
    CHECK(judge(0.80 + 0.85 * u, u, band, 0.80) == Verdict::above);
    CHECK(judge(0.70 + 1.66 * u, u, band, 0.95) == Verdict::inside);
    CHECK(judge(0.70 + 1.63 * u, u, band, 0.95) == Verdict::too_close);
    CHECK(judge(0.75, 0.04, band, 0.95) == Verdict::too_close);  // the band is too narrow for this u
}
