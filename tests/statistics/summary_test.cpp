// NIST/ITL Statistical Reference Datasets, univariate summary statistics (certified values); the data of
// NumAcc2 to 4 by their published pattern (Simon & Lesage 1989).
#include "analysis/statistics/summary.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "analysis/statistics/distributions.h"

using namespace footing;

namespace {

std::vector<double> alternating(double first, double low, double high) {
    std::vector<double> values{first};
    for (int i = 0; i < 500; ++i) {
        values.push_back(low);
        values.push_back(high);
    }
    return values;
}

const std::vector<double> michelson{
    299.85, 299.74, 299.90, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.00, 299.98, 299.93,
    299.65, 299.76, 299.81, 300.00, 300.00, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.80,
    299.85, 299.88, 299.90, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.80, 299.79, 299.76,
    299.80, 299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91,
    299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.80,
    299.77, 299.76, 299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85,
    299.85, 299.78, 299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87,
    299.87, 299.81, 299.74, 299.81, 299.94, 299.95, 299.80, 299.81, 299.87};

struct Certified {
    std::vector<double> data;
    double mean;
    double sd;
    double autocorrelation;
    double sd_tolerance;  // what double precision leaves of the data themselves
};

}  // namespace

TEST_CASE("NIST StRD: mean, standard deviation and lag-1 autocorrelation") {
    for (const Certified& set :
         {Certified{{10000001, 10000003, 10000002}, 10000002, 1, -0.5, 1e-15},
          Certified{alternating(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, 1e-12},
          Certified{alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 1e-9},
          Certified{alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, 1e-8},
          Certified{michelson, 299.8524, 0.0790105478190518, 0.535199668621283, 1e-12}}) {
        CHECK(mean(set.data) == doctest::Approx(set.mean).epsilon(1e-14));
        CHECK(standard_deviation(set.data) == doctest::Approx(set.sd).epsilon(set.sd_tolerance));
        CHECK(lag_one_autocorrelation(set.data) == doctest::Approx(set.autocorrelation).epsilon(1e-8));
        RunningSummary running;
        for (const double value : set.data) running.add(value);
        CHECK(running.mean() == doctest::Approx(set.mean).epsilon(1e-14));
        CHECK(running.standard_deviation() == doctest::Approx(set.sd).epsilon(1e-7));
    }
}

TEST_CASE("a large common part does not swallow the variance") {
    // {4, 7, 13, 16} plus 1e9: variance 30 exactly (a classic of running variances).
    RunningSummary running;
    for (const double value : {4.0, 7.0, 13.0, 16.0}) running.add(1e9 + value);
    CHECK(running.variance() == doctest::Approx(30.0).epsilon(1e-12));
}

TEST_CASE("GUM table 1: twenty temperatures") {
    // JCGM 100:2008, 4.4.3 (data from memory; they give the printed results).
    const std::vector<double> t{96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,
                                99.74,  99.89,  100.07, 100.33, 100.42, 100.68, 100.95,
                                101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
    CHECK(mean(t) == doctest::Approx(100.145).epsilon(1e-9));
    CHECK(standard_deviation(t) == doctest::Approx(1.489).epsilon(5e-4));
}

TEST_CASE("quantiles by linear interpolation, and the robust spread") {
    CHECK(median({3.0, 1.0, 2.0}) == 2.0);
    CHECK(median({4.0, 1.0, 2.0, 3.0}) == 2.5);
    CHECK(quantile({1.0, 2.0, 3.0, 4.0}, 0.25) == doctest::Approx(1.75));  // R's type 7
    CHECK(std::isnan(median({})));
    // R 4.2.2: mad(c(82,85,84,83,61)) = 1.4826
    CHECK(robust_standard_deviation({82, 85, 84, 83, 61}) ==
          doctest::Approx(1.482602218505602).epsilon(1e-12));
}

TEST_CASE("Student's t as the usual tables have it") {
    // Upper 5, 2.5 and 0.5 %: any table of the distribution; six decimals computed with mpmath.
    struct Line {
        double degrees_of_freedom, t_95, t_975, t_995;
    };
    for (const auto& [nu, t_95, t_975, t_995] : {
             Line{1, 6.313752, 12.706205, 63.656741},
             Line{2, 2.919986, 4.302653, 9.924843},
             Line{3, 2.353363, 3.182446, 5.840909},
             Line{4, 2.131847, 2.776445, 4.604095},
             Line{5, 2.015048, 2.570582, 4.032143},
             Line{6, 1.943180, 2.446912, 3.707428},
             Line{7, 1.894579, 2.364624, 3.499483},
             Line{8, 1.859548, 2.306004, 3.355387},
             Line{9, 1.833113, 2.262157, 3.249836},
             Line{10, 1.812461, 2.228139, 3.169273},
             Line{14, 1.761310, 2.144787, 2.976843},
             Line{19, 1.729133, 2.093024, 2.860935},
             Line{29, 1.699127, 2.045230, 2.756386},
             Line{60, 1.670649, 2.000298, 2.660283},
             Line{120, 1.657651, 1.979930, 2.617421},
         }) {
        CAPTURE(nu);
        CHECK(std::abs(student_t_quantile(0.95, nu) - t_95) < 1e-6);
        CHECK(std::abs(student_t_quantile(0.975, nu) - t_975) < 1e-6);
        CHECK(std::abs(student_t_quantile(0.995, nu) - t_995) < 1e-6);
    }
}

TEST_CASE("chi-square tables: F with very many degrees of freedom below is chi-square over those above") {
    struct Line {
        double degrees_of_freedom, lower, median, upper;  // 2.5, 50 and 97.5 %
    };
    for (const auto& [nu, lower, middle, upper] : {
             Line{2, .050636, 1.386294, 7.377759},
             Line{4, .484419, 3.356694, 11.143287},
             Line{5, .831212, 4.351460, 12.832502},
             Line{9, 2.700389, 8.342833, 19.022768},
             Line{20, 9.590777, 19.337429, 34.169607},
             Line{30, 16.790772, 29.336032, 46.979242},
         }) {
        CAPTURE(nu);
        CHECK(nu * f_quantile(0.025, nu, 1e9) == doctest::Approx(lower).epsilon(2e-5));
        CHECK(nu * f_quantile(0.5, nu, 1e9) == doctest::Approx(middle).epsilon(1e-6));
        CHECK(nu * f_quantile(0.975, nu, 1e9) == doctest::Approx(upper).epsilon(1e-6));
    }
}

TEST_CASE("the normal distribution's upper quarter, and chi-square in closed form") {
    CHECK(normal_quantile(0.75) * 1.482602218505602 == doctest::Approx(1.0).epsilon(1e-14));
    CHECK(f_quantile(0.95, 2, 1e7) == doctest::Approx(-std::log(0.05)).epsilon(1e-5));
}
