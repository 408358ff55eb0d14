// Balasubramanian et al. 2012 (IEEE TBME 59:2126) and 2015 (J NeuroEng Rehabil 12:112): the values of the
// authors' published code for their own example and for minimum-jerk speeds.
#include "analysis/swing/smoothness.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace footing;

namespace {
double minimum_jerk_speed(double t, double duration) {
    const double u = t / duration;
    return u <= 0.0 || u >= 1.0 ? 0.0 : 30.0 * u * u * (1.0 - u) * (1.0 - u) / duration;
}
std::vector<double> speeds_of_minimum_jerk(double duration, double rate_hz, double second_after = -1.0) {
    std::vector<double> v;
    const double whole = duration + std::max(0.0, second_after);
    for (int i = 0; i <= std::lround(whole * rate_hz); ++i) {
        const double t = i / rate_hz;
        v.push_back(minimum_jerk_speed(t, duration) +
                    (second_after >= 0.0 ? minimum_jerk_speed(t - second_after, duration) : 0.0));
    }
    return v;
}
}  // namespace

TEST_CASE("the authors' example: a bell at 100 Hz") {
    std::vector<double> v;
    for (int i = 0; i < 200; ++i) {
        const double t = -1.0 + 0.01 * i;
        v.push_back(std::exp(-5.0 * t * t));
    }
    CHECK(spectral_arc_length(v, 100) == doctest::Approx(-1.4140312617104789).epsilon(1e-9));
    CHECK(log_dimensionless_jerk(v, 100) == doctest::Approx(-5.816357414756399).epsilon(1e-9));
}

TEST_CASE("minimum jerk, and two movements that overlap less and less") {
    CHECK(spectral_arc_length(speeds_of_minimum_jerk(1, 1000), 1000) ==
          doctest::Approx(-1.40242606).epsilon(1e-7));
    CHECK(log_dimensionless_jerk(speeds_of_minimum_jerk(1, 1000), 1000) ==
          doctest::Approx(-5.32002989).epsilon(1e-7));
    // Exact, whatever duration and size: -ln(720/1.875^2) = -5.322.
    CHECK(log_dimensionless_jerk(speeds_of_minimum_jerk(0.5, 1000), 1000) ==
          doctest::Approx(-5.322033893165353).epsilon(1e-3));
    CHECK(spectral_arc_length(speeds_of_minimum_jerk(1, 1000, 0.25), 1000) ==
          doctest::Approx(-1.40352242).epsilon(1e-7));
    CHECK(spectral_arc_length(speeds_of_minimum_jerk(1, 1000, 0.5), 1000) ==
          doctest::Approx(-1.62061750).epsilon(1e-7));
    CHECK(spectral_arc_length(speeds_of_minimum_jerk(1, 1000, 1.0), 1000) ==
          doctest::Approx(-2.24618287).epsilon(1e-7));
    CHECK(log_dimensionless_jerk(speeds_of_minimum_jerk(1, 1000, 1.0), 1000) ==
          doctest::Approx(-8.09361912).epsilon(1e-7));
}

TEST_CASE("size does not matter; nothing has no smoothness") {
    std::vector<double> v = speeds_of_minimum_jerk(1, 200, 0.5);
    const double sparc = spectral_arc_length(v, 200);
    const double ldlj = log_dimensionless_jerk(v, 200);
    for (double& value : v) value *= 3.7;
    CHECK(spectral_arc_length(v, 200) == doctest::Approx(sparc).epsilon(1e-12));
    CHECK(log_dimensionless_jerk(v, 200) == doctest::Approx(ldlj).epsilon(1e-12));
    CHECK(std::isnan(spectral_arc_length(std::vector<double>(50, 0.0), 100)));
    CHECK(std::isnan(log_dimensionless_jerk(std::vector<double>(3, 1.0), 100)));
}
