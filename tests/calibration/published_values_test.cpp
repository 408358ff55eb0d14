#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/gravity.h"
#include "analysis/statistics/load_cell_terms_limits.h"
#include "analysis/statistics/summary.h"

using namespace footing;

namespace {

std::vector<LoadReading> readings_of(const std::vector<double>& x, const std::vector<double>& y) {
    std::vector<LoadReading> readings;
    for (std::size_t i = 0; i < x.size(); ++i)
        readings.push_back({x[i], y[i], static_cast<double>(i), LoadDirection::growing, 0});
    return readings;
}

/// NIST StRD, Norris.dat (calibration of ozone monitors).
const std::vector<double> norris_x{0.2,   337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6,
                                   777.0, 558.2, 0.4,   0.6,   775.5, 666.9, 338.0, 447.5, 11.6,
                                   556.0, 228.1, 995.8, 887.6, 120.2, 0.3,   0.3,   556.8, 339.1,
                                   887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
const std::vector<double> norris_y{0.1,   338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1,
                                   778.9, 559.2, 0.3,   0.1,   778.1, 668.8, 339.3, 448.9, 10.8,
                                   557.7, 228.3, 998.0, 888.8, 119.6, 0.3,   0.6,   557.6, 339.3,
                                   888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};

}  // namespace

TEST_CASE("a calibration line is that of JCGM 100:2008 (GUM), H.3, covariance included") {
    const std::vector<double> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                24.513, 25.002, 25.503, 26.010, 26.511};
    const std::vector<double> b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                -0.156, -0.157, -0.159, -0.161, -0.160};
    std::vector<double> from_20;
    for (const double degrees : t) from_20.push_back(degrees - 20.0);
    const auto fitted = fit_cell(readings_of(from_20, b));
    REQUIRE(fitted.ok());
    const CellCalibration& cell = fitted.value();
    // Full digits by exact rational arithmetic; GUM prints -0.1712, 0.0029, 0.00218, 0.00067, -0.930.
    CHECK(cell.zero_counts == doctest::Approx(-0.17120379013134998).epsilon(1e-10));
    CHECK(cell.u_zero_counts == doctest::Approx(0.002877597835159954).epsilon(1e-10));
    CHECK(cell.newtons_per_count == doctest::Approx(1.0 / 0.002182697739887278).epsilon(1e-10));
    CHECK(cell.line.u_slope == doctest::Approx(0.0006679387732278317).epsilon(1e-10));
    CHECK(cell.line.covariance == doctest::Approx(-1.7883407486739e-06).epsilon(1e-10));
    CHECK(cell.degrees_of_freedom == 9);
    // u[b(30)] with the covariance; without it one gets 0.00727.
    CHECK(cell.line.u_at(10.0) == doctest::Approx(0.004138595752854947).epsilon(1e-10));
    CHECK(std::hypot(cell.line.u_intercept, 10.0 * cell.line.u_slope) ==
          doctest::Approx(0.00727).epsilon(1e-3));
}

TEST_CASE("gain and zero follow from the certified line of NIST StRD Norris") {
    const auto fitted = fit_cell(readings_of(norris_x, norris_y));
    REQUIRE(fitted.ok());
    const CellCalibration& cell = fitted.value();
    constexpr double slope = 1.00211681802045;
    constexpr double u_slope = 0.429796848199937e-03;
    CHECK(cell.zero_counts == doctest::Approx(-0.262323073774029).epsilon(1e-10));
    CHECK(cell.u_zero_counts == doctest::Approx(0.232818234301152).epsilon(1e-10));
    CHECK(cell.newtons_per_count == doctest::Approx(1.0 / slope).epsilon(1e-11));
    // GUM 5.1.2 for gain = 1 / slope.
    CHECK(cell.u_newtons_per_count == doctest::Approx(u_slope / (slope * slope)).epsilon(1e-10));
    CHECK(cell.covariance == doctest::Approx(7.743275363156436e-05 / (slope * slope)).epsilon(1e-9));
    CHECK(cell.residual_sd_n == doctest::Approx(0.884796396144373 / slope).epsilon(1e-10));
}

TEST_CASE("mean and its uncertainty are those of GUM, table 1") {
    const std::vector<double> t{96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,
                                99.74,  99.89,  100.07, 100.33, 100.42, 100.68, 100.95,
                                101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
    CHECK(mean(t) == doctest::Approx(100.145).epsilon(5e-6));
    CHECK(standard_deviation(t) == doctest::Approx(1.489).epsilon(5e-4));
    CHECK(standard_deviation(t) / std::sqrt(20.0) == doctest::Approx(0.333).epsilon(5e-4));
}

TEST_CASE("a few readings need a wider interval: Student's t at 95.45 % (GUM, table G.2)") {
    // GUM table G.2, column 95.45 %: 13.97, 4.53, 2.52 (6), 2.32 (9... 2.28 (10), 2.13 (20).
    CHECK(2.0 * covering_factor(1) == doctest::Approx(13.97).epsilon(5e-4));
    CHECK(2.0 * covering_factor(2) == doctest::Approx(4.53).epsilon(2e-3));
    CHECK(2.0 * covering_factor(6) == doctest::Approx(2.52).epsilon(2e-3));
    CHECK(2.0 * covering_factor(10) == doctest::Approx(2.28).epsilon(2e-3));
    CHECK(2.0 * covering_factor(20) == doctest::Approx(2.13).epsilon(3e-3));
    CHECK(covering_factor(1e7) == doctest::Approx(1.0).epsilon(1e-4));
    CHECK(rectangular_u(0.5) == doctest::Approx(0.288675134594813).epsilon(1e-12));
}

TEST_CASE("errors allowed to weighing instruments are those of OIML R 76-1:2006, table 6") {
    using enum AccuracyClass;
    CHECK(weighing_mpe_e(three, 500.0) == 0.5);
    CHECK(weighing_mpe_e(three, 500.1) == 1.0);
    CHECK(weighing_mpe_e(three, 2000.0) == 1.0);
    CHECK(weighing_mpe_e(three, 10000.0) == 1.5);
    CHECK_FALSE(weighing_mpe_e(three, 10001.0).has_value());
    CHECK(weighing_mpe_e(one, 50000.0) == 0.5);
    CHECK(weighing_mpe_e(one, 200001.0) == 1.5);
    CHECK(weighing_mpe_e(two, 5000.0) == 0.5);
    CHECK(weighing_mpe_e(two, 20000.0) == 1.0);
    CHECK(weighing_mpe_e(two, 100000.0) == 1.5);
    CHECK(weighing_mpe_e(four, 50.0) == 0.5);
    CHECK(weighing_mpe_e(four, 200.0) == 1.0);
    CHECK(weighing_mpe_e(four, 201.0) == 1.5);
    // Class III, e = 0.05 kg.
    CHECK(weighing_mpe(three, 25.0, 0.05).value() == doctest::Approx(0.025));
    CHECK(weighing_mpe(three, 25.05, 0.05).value() == doctest::Approx(0.05));
    CHECK(weighing_mpe(three, 150.0, 0.05).value() == doctest::Approx(0.075));
}

TEST_CASE("errors and creep allowed to a load cell are those of OIML R 60-1:2021") {
    // A C3 cell at full load, 3000 v.
    CHECK(load_cell_mpe_v(3000.0).value() == doctest::Approx(1.05).epsilon(1e-12));
    CHECK(creep_limit_v(3000.0).value() == doctest::Approx(0.735).epsilon(1e-12));
    CHECK(late_creep_limit_v(3000.0).value() == doctest::Approx(0.1575).epsilon(1e-12));
    CHECK(load_cell_mpe_v(500.0, 0.8).value() == doctest::Approx(0.4));
    CHECK(dead_load_return_limit_v == 0.5);
}

TEST_CASE("local gravity is that of WGS 84 (NIMA TR8350.2) at sea level and above") {
    CHECK(normal_gravity_m_s2(0.0) == doctest::Approx(9.7803253359).epsilon(1e-10));
    CHECK(normal_gravity_m_s2(30.0) == doctest::Approx(9.7932472692).epsilon(1e-10));
    CHECK(normal_gravity_m_s2(-45.0) == doctest::Approx(9.8061977694).epsilon(1e-10));
    CHECK(normal_gravity_m_s2(52.0) == doctest::Approx(9.8124740779).epsilon(1e-10));
    CHECK(normal_gravity_m_s2(60.0) == doctest::Approx(9.8191769531).epsilon(1e-10));
    CHECK(normal_gravity_m_s2(90.0) == doctest::Approx(9.8321849379).epsilon(1e-10));
    CHECK(local_gravity_m_s2(45.0, 1000.0) == doctest::Approx(9.80311294).epsilon(1e-9));
    CHECK(normal_gravity_m_s2(45.49964) == doctest::Approx(standard_gravity_m_s2).epsilon(1e-8));
    // The simple formula of WELMEC's guide (constants from memory) lies within 8e-6 m/s2.
    CHECK(std::abs(local_gravity_m_s2(45.0, 0.0) - 9.80619085) < 8e-6);
}

TEST_CASE("units are exact by definition (CGPM 1901; SI brochure, NIST SP 811)") {
    CHECK(standard_gravity_m_s2 == 9.80665);
    CHECK(150.0 * 0.45359237 * standard_gravity_m_s2 == doctest::Approx(667.233242289075).epsilon(1e-15));
}
