#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/calibration_fit_plate.h"
#include "tests/calibration/simulated_plates.h"

using namespace footing;
using test::local_g_m_s2;

namespace {

const std::vector<double> up_and_down_kg{0, 10, 20, 30, 20, 10, 0};

std::vector<LoadReading> run(double gain, double zero, std::size_t number, double sd_counts,
                             std::mt19937_64& random) {
    std::normal_distribution<double> noise(0.0, sd_counts);
    std::vector<LoadReading> readings;
    for (const double kg : up_and_down_kg)
        readings.push_back({kg * local_g_m_s2, zero + kg * local_g_m_s2 / gain + noise(random),
                            60.0 * readings.size(), LoadDirection::growing, number});
    tell_directions(readings);
    return readings;
}

const std::vector<PointM> corners{{-0.17, 0.22}, {0.17, 0.22}, {-0.17, -0.22}, {0.17, -0.22}};

/// A rigid plate on four equal springs (statics): each cell carries F/4 (1 + x x_i / x_c^2 + y y_i / y_c^2).
std::array<double, 4> rigid_plate(double force_n, PointM at) {
    std::array<double, 4> forces{};
    for (std::size_t i = 0; i < 4; ++i) {
        forces[i] = 0.25 * force_n *
                    (1.0 + at.x_m * corners[i].x_m / (0.17 * 0.17) + at.y_m * corners[i].y_m / (0.22 * 0.22));
    }
    return forces;
}

struct TruePlate {
    std::array<double, 4> newtons_per_count{0.000252, 0.000247, 0.000251, 0.000244};
    double cross_talk = 0.01;  ///< of each cell's load that its neighbour in the list answers to

    std::vector<double> counts(double force_n, PointM at, double zero, double sd_n,
                               std::mt19937_64& random) const {
        std::normal_distribution<double> noise(0.0, sd_n);
        const auto forces = rigid_plate(force_n, at);
        std::vector<double> read;
        for (std::size_t i = 0; i < 4; ++i) {
            const double felt_n = forces[i] + cross_talk * forces[(i + 1) % 4] + noise(random);
            read.push_back(zero + 1000.0 * static_cast<double>(i) + felt_n / newtons_per_count[i]);
        }
        return read;
    }
};

std::vector<PlateReading> readings_at(const TruePlate& plate, const std::vector<PointM>& points, double sd_n,
                                      double drift_n, std::mt19937_64& random) {
    std::vector<PlateReading> readings;
    double zero = 500.0;
    for (std::size_t run_number = 0; run_number < points.size(); ++run_number) {
        zero += drift_n / 0.00025;
        for (const double kg : up_and_down_kg) {
            readings.push_back({kg * local_g_m_s2, points[run_number], run_number,
                                plate.counts(kg * local_g_m_s2, points[run_number], zero, sd_n, random)});
        }
    }
    return readings;
}

const std::vector<PointM> nine_points{{0, 0},   {-0.15, 0.2}, {0.15, 0.2}, {-0.15, -0.2}, {0.15, -0.2},
                                      {0, 0.2}, {0, -0.2},    {-0.15, 0},  {0.15, 0}};

/// Total and place by a cell matrix, from counts less zero.
struct Resultant {
    double force_n = 0.0;
    double x_m = 0.0;
    double y_m = 0.0;
};

Resultant resultant(const PlateCalibration& plate, const std::vector<double>& deflection) {
    Resultant sum;
    for (std::size_t row = 0; row < 4; ++row) {
        double force_n = 0.0;
        for (std::size_t column = 0; column < 4; ++column)
            force_n += plate.matrix[row * 4 + column] * deflection[column];
        sum.force_n += force_n;
        sum.x_m += force_n * corners[row].x_m;
        sum.y_m += force_n * corners[row].y_m;
    }
    sum.x_m /= sum.force_n;
    sum.y_m /= sum.force_n;
    return sum;
}

}  // namespace

TEST_CASE("errors of a cell are told in the words of OIML R 60") {
    // Made by hand: gain 0.01 N/count, a bow of 0.3 N at 200 N, 0.5 N more when unloading, 0.2 N of creep.
    std::vector<LoadReading> readings{{0, 0, 0},         {100, 10000, 60},  {200, 20030, 120},
                                      {300, 30000, 180}, {300, 30020, 780}, {200, 20080, 840},
                                      {100, 10050, 900}, {0, 0, 960}};
    tell_directions(readings);
    CHECK(readings[3].direction == LoadDirection::growing);
    CHECK(readings[4].direction == LoadDirection::held);
    CHECK(readings[5].direction == LoadDirection::falling);
    const auto fitted = fit_cell(readings);
    REQUIRE(fitted.ok());
    const LoadCellTerms& terms = fitted.value().terms;
    CHECK(terms.full_load_n == 300.0);
    CHECK(terms.hysteresis_n.value() == doctest::Approx(0.5).epsilon(1e-3));
    CHECK(terms.creep_n.value() == doctest::Approx(0.2).epsilon(1e-3));
    CHECK(terms.creep_s.value() == 600.0);
    CHECK_FALSE(terms.repeatability_n.has_value());
    CHECK(terms.non_linearity_n.value() > 0.1);
    CHECK(terms.non_linearity_n.value() < 0.5);
    CHECK(percent_of_full_load(0.5, 300.0) == doctest::Approx(1.0 / 6.0));
}

TEST_CASE("runs share a slope though the zero drifted between them") {
    std::mt19937_64 random(1);
    auto readings = run(0.01, 100.0, 0, 0.0, random);
    const auto second = run(0.01, 900.0, 1, 0.0, random);
    readings.insert(readings.end(), second.begin(), second.end());
    tell_directions(readings);
    const auto fitted = fit_cell(readings);
    REQUIRE(fitted.ok());
    CHECK(fitted.value().newtons_per_count == doctest::Approx(0.01).epsilon(1e-12));
    CHECK(fitted.value().zero_counts == doctest::Approx(500.0).epsilon(1e-9));
    CHECK(fitted.value().residual_sd_n < 1e-9);
    CHECK(fitted.value().degrees_of_freedom == 11);
    CHECK(fitted.value().terms.repeatability_n.value() < 1e-9);
}

TEST_CASE("a cell that does not answer, or too few readings, is refused with a reason") {
    std::vector<LoadReading> dead;
    for (const double kg : up_and_down_kg)
        dead.push_back({kg * local_g_m_s2, 5.0 + 0.1 * (dead.size() % 2), 0.0});
    const auto no_answer = fit_cell(dead);
    REQUIRE_FALSE(no_answer.ok());
    CHECK(no_answer.problem().what.find("does not answer") != std::string::npos);
    CHECK_FALSE(fit_cell(std::vector<LoadReading>{{0, 0}, {10, 100}}).ok());
    CHECK_FALSE(fit_cell(std::vector<LoadReading>{{10, 1}, {10, 2}, {10, 3}}).ok());
}

TEST_CASE("a cell's gain lies within twice its stated uncertainty in 95 % of many calibrations (JCGM 101)") {
    std::mt19937_64 random(20261125);
    constexpr int trials = 4000;
    int covered = 0;
    int zero_covered = 0;
    for (int trial = 0; trial < trials; ++trial) {
        const auto fitted = fit_cell(run(0.00025, 12345.0, 0, 400.0, random));
        REQUIRE(fitted.ok());
        const CellCalibration& cell = fitted.value();
        const double cover = 2.0 * covering_factor(cell.degrees_of_freedom);
        if (std::abs(cell.newtons_per_count - 0.00025) <= cover * cell.u_newtons_per_count) ++covered;
        if (std::abs(cell.zero_counts - 12345.0) <= cover * cell.u_zero_counts) ++zero_covered;
    }
    MESSAGE("gain covered in " << 100.0 * covered / trials << " %, zero in " << 100.0 * zero_covered / trials
                               << " %");
    CHECK(covered > 0.94 * trials);
    CHECK(covered < 0.97 * trials);
    CHECK(zero_covered > 0.94 * trials);
    CHECK(zero_covered < 0.97 * trials);
}

TEST_CASE("a plate's matrix gives back load and place, cross-talk and unequal cells or not") {
    std::mt19937_64 random(5);
    const TruePlate plate;
    const auto readings = readings_at(plate, nine_points, 0.0, 2.0, random);
    const auto fitted = fit_plate(readings, corners, {{0.00025, 0.00025, 0.00025, 0.00025}, 0.05});
    REQUIRE(fitted.ok());
    // A load and a place that were not among the readings.
    const std::vector<double> empty = plate.counts(0.0, {}, 500.0, 0.0, random);
    std::vector<double> deflection = plate.counts(700.0, {0.08, -0.11}, 500.0, 0.0, random);
    for (std::size_t i = 0; i < 4; ++i) deflection[i] -= empty[i];
    const Resultant found = resultant(fitted.value(), deflection);
    CHECK(found.force_n == doctest::Approx(700.0).epsilon(1e-5));
    CHECK(found.x_m == doctest::Approx(0.08).epsilon(1e-4));
    CHECK(found.y_m == doctest::Approx(-0.11).epsilon(1e-4));
    // The nominal scale would have been wrong by more than a per cent.
    double nominal_n = 0.0;
    for (const double counts : deflection) nominal_n += 0.00025 * counts;
    CHECK(std::abs(nominal_n / 700.0 - 1.0) > 0.01);
    double columns = 0.0;
    for (std::size_t row = 0; row < 4; ++row) columns += fitted.value().matrix[row * 4];
    CHECK(columns == doctest::Approx(fitted.value().newtons_per_count[0]).epsilon(1e-9));
}

TEST_CASE("a plate's load lies within twice its stated uncertainty in 95 % of many calibrations (JCGM 101)") {
    std::mt19937_64 random(77);
    const TruePlate plate;
    constexpr int trials = 2000;
    int covered = 0;
    const std::vector<double> empty = plate.counts(0.0, {}, 500.0, 0.0, random);
    std::vector<double> deflection = plate.counts(600.0, {0.05, 0.08}, 500.0, 0.0, random);
    for (std::size_t i = 0; i < 4; ++i) deflection[i] -= empty[i];
    for (int trial = 0; trial < trials; ++trial) {
        const auto readings = readings_at(plate, nine_points, 0.2, 1.0, random);
        const auto fitted = fit_plate(readings, corners, {{0.00025, 0.00025, 0.00025, 0.00025}, 0.05});
        REQUIRE(fitted.ok());
        double force_n = 0.0;
        double variance = 0.0;
        for (std::size_t i = 0; i < 4; ++i) {
            force_n += fitted.value().newtons_per_count[i] * deflection[i];
            for (std::size_t j = 0; j < 4; ++j)
                variance += fitted.value().covariance[i * 4 + j] * deflection[i] * deflection[j];
        }
        const double cover = 2.0 * covering_factor(fitted.value().degrees_of_freedom);
        if (std::abs(force_n - 600.0) <= cover * std::sqrt(variance)) ++covered;
    }
    MESSAGE("load covered in " << 100.0 * covered / trials << " %");
    CHECK(covered > 0.94 * trials);
    CHECK(covered < 0.97 * trials);
}

TEST_CASE("what no load tells stays as it was believed, with its uncertainty") {
    // One point only: a load in the middle says what the four cells are worth together, not one by one.
    std::mt19937_64 random(3);
    const TruePlate plate{{0.00026, 0.00026, 0.00026, 0.00026}, 0.0};
    const auto fitted = fit_plate(readings_at(plate, {{0, 0}}, 0.01, 0.0, random), corners,
                                  {{0.00025, 0.00025, 0.00025, 0.00025}, 0.05});
    REQUIRE(fitted.ok());
    const auto& k = fitted.value().covariance;
    double even = 0.0;
    for (const double element : k) even += element / 16.0;
    CHECK(std::sqrt(even) / 0.00026 < 0.001);
    CHECK(std::sqrt(k[0]) / 0.00025 > 0.03);
    CHECK(fitted.value().newtons_per_count[2] == doctest::Approx(0.00026).epsilon(0.002));
}

TEST_CASE("a plate that cannot be fitted is refused with a reason") {
    std::mt19937_64 random(9);
    const TruePlate plate;
    auto readings = readings_at(plate, nine_points, 0.0, 0.0, random);
    CHECK_FALSE(fit_plate(readings, {{{0, 0}, {1, 0}}}, {{1, 1}, 0.05}).ok());
    CHECK_FALSE(fit_plate(std::vector<PlateReading>(3, readings[0]), corners, {{1, 1, 1, 1}, 0.05}).ok());
    readings[4].counts.pop_back();
    CHECK_FALSE(fit_plate(readings, corners, {{1, 1, 1, 1}, 0.05}).ok());
}
