#include "analysis/pressure/filter.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include "analysis/pressure/load_trace.h"

using namespace footing;

namespace {

/// The input of the published sample values: x[n] = sin(2 pi 2 n/fs) + 0.5 sin(2 pi 30 n/fs) + 0.2 ((37 n)
/// mod 101)/101.
std::vector<double> test_signal() {
    std::vector<double> x(1000);
    for (int n = 0; n < 1000; ++n) {
        x[n] = std::sin(2 * std::numbers::pi * 2 * n / 1000.0) +
               0.5 * std::sin(2 * std::numbers::pi * 30 * n / 1000.0) + 0.2 * ((37 * n) % 101) / 101.0;
    }
    return x;
}

double magnitude(const std::vector<Section>& sections, double frequency_hz, double rate_hz) {
    const std::complex<double> z = std::polar(1.0, -2.0 * std::numbers::pi * frequency_hz / rate_hz);
    std::complex<double> product = 1.0;
    for (const Section& s : sections)
        product *= (s.b0 + s.b1 * z + s.b2 * z * z) / (1.0 + s.a1 * z + s.a2 * z * z);
    return std::abs(product);
}

/// Product of the sections as one polynomial each.
std::array<std::vector<double>, 2> as_polynomials(const std::vector<Section>& sections) {
    std::vector<double> b{1.0};
    std::vector<double> a{1.0};
    const auto times = [](const std::vector<double>& p, std::array<double, 3> q) {
        std::vector<double> r(p.size() + 2, 0.0);
        for (std::size_t i = 0; i < p.size(); ++i)
            for (std::size_t k = 0; k < 3; ++k) r[i + k] += p[i] * q[k];
        return r;
    };
    for (const Section& s : sections) {
        b = times(b, {s.b0, s.b1, s.b2});
        a = times(a, {1.0, s.a1, s.a2});
    }
    return {b, a};
}

}  // namespace

TEST_CASE("Butterworth coefficients are those of scipy.signal.butter") {
    // scipy 1.10.1, butter(2, fc/500) and butter(4, fc/500).
    struct Second {
        double fc, b0, a1, a2;
    };
    for (const Second& c : {Second{10, 0.0009446918438401507, -1.911197067426073, 0.9149758348014336},
                            Second{20, 0.0036216815149286417, -1.822694925196308, 0.8371816512560226},
                            Second{50, 0.020083365564211236, -1.5610180758007182, 0.6413515380575631}}) {
        const std::vector<Section> s = butterworth_low_pass(2, c.fc, 1000);
        REQUIRE(s.size() == 1);
        CHECK(s[0].b0 == doctest::Approx(c.b0).epsilon(1e-12));
        CHECK(s[0].b1 == doctest::Approx(2 * c.b0).epsilon(1e-12));
        CHECK(s[0].a1 == doctest::Approx(c.a1).epsilon(1e-12));
        CHECK(s[0].a2 == doctest::Approx(c.a2).epsilon(1e-12));
    }
    const auto [b, a] = as_polynomials(butterworth_low_pass(4, 20, 1000));
    CHECK(b[2] == doctest::Approx(6 * 1.32937288987529e-05).epsilon(1e-9));
    CHECK(a[1] == doctest::Approx(-3.671729089161935).epsilon(1e-12));
    CHECK(a[2] == doctest::Approx(5.067998386734189).epsilon(1e-12));
    CHECK(a[3] == doctest::Approx(-3.1159669252017452).epsilon(1e-12));
    CHECK(a[4] == doctest::Approx(0.7199103272918712).epsilon(1e-12));
}

TEST_CASE("the corrected cut-off makes two passes have half the power at the cut-off") {
    // Winter, Biomechanics and Motor Control of Human Movement: C = 0.802 for a second-order filter run
    // twice; prewarped values computed with the formula.
    for (const auto& [fc, corrected] :
         {std::pair{10.0, 12.462777284}, {20.0, 24.911964653}, {50.0, 62.045043630}}) {
        CHECK(cutoff_for_two_passes(2, fc, 1000) == doctest::Approx(corrected).epsilon(1e-10));
        for (const int order : {2, 4, 6, 8}) {
            const double once = magnitude(
                butterworth_low_pass(order, cutoff_for_two_passes(order, fc, 1000), 1000), fc, 1000);
            CHECK(once * once == doctest::Approx(std::numbers::sqrt2 / 2).epsilon(1e-12));
        }
    }
}

TEST_CASE("zero-lag output is that of scipy.signal.filtfilt") {
    // scipy 1.10.1: filtfilt(*butter(2, fc/500), x), default odd padding of 9 samples.
    struct Samples {
        double fc;
        std::array<double, 7> y;  // at 0, 1, 10, 100, 250, 500, 999
    };
    const std::array<std::size_t, 7> at{0, 1, 10, 100, 250, 500, 999};
    for (const Samples& expected :
         {Samples{10,
                  {-0.111101679028875, -0.0874381849861238, 0.1127857443878, 1.04781939160576,
                   0.100004541045123, 0.0977716138295652, -0.124887393421464}},
          Samples{20,
                  {-0.0383182287553776, 0.00749103445230838, 0.289646574275593, 1.04667047481934,
                   0.0999994998999692, 0.0965319162433487, -0.0531614534924622}},
          Samples{50,
                  {0.00936932486569676, 0.123612641153074, 0.648913538491978, 1.04108575968511,
                   0.100030784032656, 0.0963351872874688, 0.0745957811379428}}}) {
        std::vector<double> y = test_signal();
        zero_lag_filter(butterworth_low_pass(2, expected.fc, 1000), y);
        for (std::size_t i = 0; i < at.size(); ++i) CHECK(std::abs(y[at[i]] - expected.y[i]) < 1e-10);
    }
    // Winter's way, with the plain corrected cut-off fc/C.
    std::vector<double> y = test_signal();
    zero_lag_filter(butterworth_low_pass(2, 10 / 0.8022432629231502, 1000), y);
    CHECK(std::abs(y[0] - -0.0991679107467249) < 1e-10);
    CHECK(std::abs(y[100] - 1.04695378296536) < 1e-10);
    CHECK(std::abs(y[999] - -0.087166267595774) < 1e-10);
}

TEST_CASE("a single pass from rest, and its lag") {
    // scipy 1.10.1: lfilter(*butter(2, fc/500), x).
    CausalFilter filter(butterworth_low_pass(2, 20, 1000));
    filter.settle_at(0.0);
    const std::vector<double> x = test_signal();
    std::vector<double> y;
    for (const double value : x) y.push_back(filter(value));
    CHECK(std::abs(y[10] - 0.186048663598974) < 1e-12);
    CHECK(std::abs(y[100] - 0.82419542237568) < 1e-12);
    CHECK(std::abs(y[500] - -0.215631858076734) < 1e-12);

    // Group delay near zero frequency: (sqrt 2/2)/tan(pi fc/fs) = 22.5005 samples at 10 Hz; a ramp comes out
    // that late.
    CausalFilter ramp(butterworth_low_pass(2, 10, 1000));
    double out = ramp(0.0);
    for (int n = 1; n <= 3000; ++n) out = ramp(n);
    CHECK(3000 - out == doctest::Approx(22.50050261).epsilon(1e-6));
}

TEST_CASE("a causal filter settles on the first sample and passes over what is not known") {
    CausalFilter filter(butterworth_low_pass(4, 8, 500));
    CHECK(std::isnan(filter(unknown)));
    CHECK(filter(0.7) == doctest::Approx(0.7).epsilon(1e-12));
    CHECK(std::isnan(filter(unknown)));
    CHECK(filter(0.7) == doctest::Approx(0.7).epsilon(1e-12));
}

TEST_CASE("a long column cut in parts comes out as if in one piece") {
    std::mt19937_64 random(9);
    std::normal_distribution<double> normal;
    std::vector<double> x(60'000);
    double level = 700.0;
    for (double& value : x) value = (level += normal(random));
    for (const int order : {2, 4}) {
        const std::vector<Section> sections = butterworth_low_pass(order, 10, 1000);
        std::vector<double> y = x;
        zero_lag_filter(sections, y);
        // The same forward and backward passes, sample by sample in one piece, with the extension written
        // out.
        const std::size_t edge = 3 * (2 * sections.size() + 1);
        std::vector<double> extended;
        for (std::size_t i = edge; i > 0; --i) extended.push_back(2 * x[0] - x[i]);
        extended.insert(extended.end(), x.begin(), x.end());
        for (std::size_t i = 1; i <= edge; ++i) extended.push_back(2 * x.back() - x[x.size() - 1 - i]);
        for (int pass = 0; pass < 2; ++pass) {
            CausalFilter filter(sections);
            for (double& value : extended) value = filter(value);
            std::reverse(extended.begin(), extended.end());
        }
        double worst = 0.0;
        for (std::size_t i = 0; i < x.size(); ++i)
            worst = std::max(worst, std::abs(y[i] - extended[i + edge]));
        CHECK(worst < 1e-9);
    }
}

TEST_CASE("what is not known splits a column and stays unknown") {
    std::vector<double> column = test_signal();
    std::vector<double> first(column.begin(), column.begin() + 400);
    column[400] = unknown;
    std::vector<double> second(column.begin() + 401, column.end());
    const std::vector<Section> sections = butterworth_low_pass(2, 20, 1000);
    zero_lag_filter_known(sections, column);
    zero_lag_filter(sections, first);
    zero_lag_filter(sections, second);
    CHECK(std::isnan(column[400]));
    CHECK(column[399] == first[399]);
    CHECK(column[401] == second[0]);
    std::vector<double> lonely{unknown, 3.0, unknown};
    zero_lag_filter_known(sections, lonely);
    CHECK(lonely[1] == 3.0);
}

TEST_CASE("scipy as a live oracle") {
    if (std::system("/usr/bin/python3 -c 'import scipy.signal' 2>/dev/null") != 0) {
        MESSAGE("python3-scipy is not installed: skipped");
        return;
    }
    const std::string script =
        "import numpy as np, scipy.signal as s\n"
        "r = np.random.default_rng(5)\n"
        "for order, fc, fs, n in "
        "[(2,10,1000,5000),(4,6,100,777),(6,20,500,3000),(8,15,250,4000),(2,7,100,12)]:\n"
        "    x = np.cumsum(r.standard_normal(n))\n"
        "    sos = s.butter(order, fc, fs=fs, output='sos')\n"
        "    y = s.sosfiltfilt(sos, x) if n > 30 else s.sosfiltfilt(sos, x, padlen=min(9, n-1))\n"
        "    print(order, fc, fs, n, *map(repr, map(float, x)), *map(repr, map(float, y)))\n";
    FILE* pipe = popen(("/usr/bin/python3 -c \"" + script + "\"").c_str(), "r");
    REQUIRE(pipe != nullptr);
    int order = 0;
    double fc = 0, fs = 0;
    int n = 0;
    int cases = 0;
    while (std::fscanf(pipe, "%d %lf %lf %d", &order, &fc, &fs, &n) == 4) {
        std::vector<double> x(n), y(n);
        for (double& value : x) REQUIRE(std::fscanf(pipe, "%lf", &value) == 1);
        for (double& value : y) REQUIRE(std::fscanf(pipe, "%lf", &value) == 1);
        zero_lag_filter(butterworth_low_pass(order, fc, fs), x);
        double worst = 0.0;
        for (int i = 0; i < n; ++i) worst = std::max(worst, std::abs(x[i] - y[i]));
        CHECK(worst < 1e-8);
        ++cases;
    }
    pclose(pipe);
    CHECK(cases == 5);
}
