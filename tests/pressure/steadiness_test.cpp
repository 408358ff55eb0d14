#include "analysis/pressure/steadiness.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "tests/support/open_data.h"

using namespace footing;

namespace {
constexpr double pi = std::numbers::pi;
double number(const test::TableRow& row, const std::string& column) {
    return std::stod(row.at(column));
}
}  // namespace

TEST_CASE("Welch: a sine on a bin, and two sines") {
    // scipy 1.10.1, signal.welch, periodic Hann, density, constant detrend, 50 % overlap.
    std::vector<double> x(1024);
    for (int n = 0; n < 1024; ++n) x[n] = 2 * std::sin(2 * pi * 8 * n / 128.0);
    Spectrum spectrum = welch_spectrum(x, 128, 128, 64);
    CHECK(spectrum.density[7] == doctest::Approx(1.0 / 3).epsilon(1e-10));
    CHECK(spectrum.density[8] == doctest::Approx(4.0 / 3).epsilon(1e-10));
    CHECK(spectrum.density[9] == doctest::Approx(1.0 / 3).epsilon(1e-10));
    CHECK(std::abs(spectrum.density[20]) < 1e-15);
    for (int n = 0; n < 1024; ++n)
        x[n] = 1.5 * std::sin(2 * pi * 10 * n / 100.0) + 0.25 * std::cos(2 * pi * 25 * n / 100.0);
    spectrum = welch_spectrum(x, 100, 256, 128);
    CHECK(spectrum.density[26] == doctest::Approx(1.558603796383432).epsilon(1e-10));
    CHECK(spectrum.density[25] == doctest::Approx(1.1933051201727045).epsilon(1e-10));
    CHECK(spectrum.density[64] == doctest::Approx(0.05333403292419547).epsilon(1e-10));
    CHECK(spectrum.density[0] == doctest::Approx(0.0002859120639237598).epsilon(1e-9));
}

TEST_CASE("an analytic path") {
    // Values by numpy from the formulas of Santos & Duarte 2016 for two sums of sines, 20 s at 100 Hz.
    std::vector<double> x(2000), y(2000);
    for (int n = 0; n < 2000; ++n) {
        const double t = n / 100.0;
        x[n] = 1.2 * std::sin(2 * pi * 0.3 * t) + 0.3 * std::sin(2 * pi * 1.1 * t + 0.5);
        y[n] = 0.8 * std::cos(2 * pi * 0.45 * t) + 0.2 * std::sin(2 * pi * 1.7 * t) + 0.15 * x[n];
    }
    for (double& value : x) value /= 100;
    for (double& value : y) value /= 100;
    const Result<Steadiness> result = steadiness(x, y, 100);
    REQUIRE(result.ok());
    const Steadiness& s = result.value();
    CHECK(s.path_cm == doctest::Approx(55.9178768704716).epsilon(1e-11));
    CHECK(s.velocity_cm_s == doctest::Approx(2.79589384352358).epsilon(1e-11));
    CHECK(s.area_cm2 == doctest::Approx(9.62844106059394).epsilon(1e-11));
    CHECK(s.rms_x_cm == doctest::Approx(0.874642784226795).epsilon(1e-11));
    CHECK(s.rms_y_cm == doctest::Approx(0.597672569221643).epsilon(1e-11));
    CHECK(s.range_x_cm == doctest::Approx(2.98248514202722).epsilon(1e-11));
    CHECK(s.range_y_cm == doctest::Approx(2.27852926207885).epsilon(1e-11));
    CHECK(s.duration_s == doctest::Approx(20.0));
    CHECK_FALSE(s.left_share);
}

TEST_CASE("published results of quiet standing on one plate") {
    // Santos & Duarte 2016, PeerJ 4:e2648 (CC BY 4.0): the authors' own area, velocity and mean frequency.
    const auto results = test::open_data("posturography/authors_results.tsv");
    if (!results) {
        MESSAGE("the open posturography data are not here: skipped");
        return;
    }
    int trials = 0;
    for (const test::TableRow& row : test::table_rows(*results)) {
        const auto text = test::open_data("posturography/" + row.at("Trial") + ".txt.gz");
        REQUIRE(text);
        std::vector<double> x, y;
        for (const test::TableRow& sample : test::table_rows(*text)) {
            x.push_back(number(sample, "COPx[cm]") / 100);
            y.push_back(number(sample, "COPy[cm]") / 100);
        }
        const Result<Steadiness> result = steadiness(x, y, 100);
        REQUIRE(result.ok());
        CHECK(result.value().area_cm2 == doctest::Approx(number(row, "COParea")).epsilon(1e-9));
        CHECK(result.value().velocity_cm_s == doctest::Approx(number(row, "COPvelo")).epsilon(1e-9));
        CHECK(result.value().mean_frequency_hz == doctest::Approx(number(row, "COPmfreq")).epsilon(1e-9));
        ++trials;
    }
    CHECK(trials == 12);
}

TEST_CASE("published results of quiet standing on two plates, and the left foot's share") {
    // dos Santos et al. 2017, PeerJ 5:e3626 (CC BY 4.0); the share by numpy.
    const auto results = test::open_data("two_plate_standing/authors_results.tsv");
    const auto shares = test::open_data("two_plate_standing/numpy_reference.tsv");
    if (!results || !shares) {
        MESSAGE("the open two-plate data are not here: skipped");
        return;
    }
    const std::vector<test::TableRow> share_rows = test::table_rows(*shares);
    int trials = 0;
    for (const test::TableRow& row : test::table_rows(*results)) {
        const auto text = test::open_data("two_plate_standing/" + row.at("Trial") + "grf.txt.gz");
        REQUIRE(text);
        LoadTrace trace;
        trace.rate_hz = 100;
        for (const test::TableRow& sample : test::table_rows(*text)) {
            trace.time_s.push_back(static_cast<double>(trace.size()) / 100);
            trace.cop_x_m.push_back(number(sample, "COPNET_Z"));
            trace.cop_y_m.push_back(number(sample, "COPNET_X"));
            trace.left_n.push_back(number(sample, "LGRF_Y"));
            trace.right_n.push_back(number(sample, "RGRF_Y"));
        }
        const Result<Steadiness> result = steadiness(trace, 0, 60);
        REQUIRE(result.ok());
        CHECK(result.value().samples == 6000);
        CHECK(result.value().area_cm2 == doctest::Approx(number(row, "COParea")).epsilon(1e-9));
        CHECK(result.value().velocity_cm_s == doctest::Approx(number(row, "COPvelo")).epsilon(1e-9));
        CHECK(result.value().mean_frequency_hz == doctest::Approx(number(row, "COPmfreq")).epsilon(1e-9));
        const auto share = std::ranges::find_if(
            share_rows, [&](const test::TableRow& other) { return other.at("Trial") == row.at("Trial"); });
        REQUIRE(share != share_rows.end());
        REQUIRE(result.value().left_share);
        CHECK(100 * *result.value().left_share ==
              doctest::Approx(number(*share, "left_share_mean_pct")).epsilon(1e-8));
        ++trials;
    }
    CHECK(trials == 4);
}

TEST_CASE("what cannot be measured is refused") {
    const std::vector<double> few(5, 0.0);
    CHECK_FALSE(steadiness(few, few, 100).ok());
    std::vector<double> gone(200, 0.01);
    gone[100] = unknown;
    const Result<Steadiness> result = steadiness(gone, gone, 100);
    REQUIRE_FALSE(result.ok());
    CHECK(result.problem().kind == ProblemKind::bad_input);
}
