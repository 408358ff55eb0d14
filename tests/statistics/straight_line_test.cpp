#include "analysis/statistics/straight_line.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace footing;

TEST_CASE("NIST StRD Norris: a calibration line") {
    // NIST/ITL StRD, linear regression, Norris.dat; covariance by exact rational arithmetic.
    const std::vector<double> x{0.2,   337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6,
                                777.0, 558.2, 0.4,   0.6,   775.5, 666.9, 338.0, 447.5, 11.6,
                                556.0, 228.1, 995.8, 887.6, 120.2, 0.3,   0.3,   556.8, 339.1,
                                887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const std::vector<double> y{0.1,   338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1,
                                778.9, 559.2, 0.3,   0.1,   778.1, 668.8, 339.3, 448.9, 10.8,
                                557.7, 228.3, 998.0, 888.8, 119.6, 0.3,   0.6,   557.6, 339.3,
                                888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const Result<StraightLine> fit = fit_straight_line(x, y);
    REQUIRE(fit.ok());
    const StraightLine& line = fit.value();
    CHECK(line.intercept == doctest::Approx(-0.262323073774029).epsilon(1e-11));
    CHECK(line.slope == doctest::Approx(1.00211681802045).epsilon(1e-11));
    CHECK(line.u_intercept == doctest::Approx(0.232818234301152).epsilon(1e-11));
    CHECK(line.u_slope == doctest::Approx(0.429796848199937e-03).epsilon(1e-11));
    CHECK(line.residual_sd == doctest::Approx(0.884796396144373).epsilon(1e-11));
    CHECK(line.r_squared == doctest::Approx(0.999993745883712).epsilon(1e-13));
    CHECK(line.covariance == doctest::Approx(-7.743275363156436e-05).epsilon(1e-10));
}

TEST_CASE("GUM H.3: calibration of a thermometer, with the covariance") {
    // JCGM 100:2008, H.3; full digits by exact rational arithmetic and R's lm().
    const std::vector<double> t{21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                24.513, 25.002, 25.503, 26.010, 26.511};
    const std::vector<double> b{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                -0.156, -0.157, -0.159, -0.161, -0.160};
    const Result<StraightLine> fit = fit_straight_line(t, b, 20.0);
    REQUIRE(fit.ok());
    const StraightLine& line = fit.value();
    CHECK(line.intercept == doctest::Approx(-0.17120379013134998).epsilon(1e-10));
    CHECK(line.u_intercept == doctest::Approx(0.002877597835159954).epsilon(1e-10));
    CHECK(line.slope == doctest::Approx(0.002182697739887278).epsilon(1e-10));
    CHECK(line.u_slope == doctest::Approx(0.0006679387732278317).epsilon(1e-10));
    CHECK(line.covariance == doctest::Approx(-1.7883407486739e-06).epsilon(1e-10));
    CHECK(line.residual_sd == doctest::Approx(0.003497563963505284).epsilon(1e-10));
    CHECK(line.at(30.0) == doctest::Approx(-0.14937681273247720).epsilon(1e-10));
    CHECK(line.u_at(30.0) == doctest::Approx(0.004138595752854947).epsilon(1e-10));
    // Without the covariance it would be 0.00727: the check would notice.
    CHECK(std::abs(line.u_at(30.0) - 0.00727) > 0.003);
}

TEST_CASE("no line through too little") {
    CHECK_FALSE(fit_straight_line(std::vector{1.0, 2.0}, std::vector{1.0, 2.0}).ok());
    CHECK_FALSE(fit_straight_line(std::vector{1.0, 1.0, 1.0}, std::vector{1.0, 2.0, 3.0}).ok());
}
