#include "acquisition/decode/clock_line.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace footing;

// R5: the figures are proposed there, with no source.
TEST_CASE(
    "100 ppm of drift and 5 ms of jitter over 30 minutes leave the fitted time within 1 ms RMS and 3 ms") {
    std::mt19937_64 chance(2);
    std::normal_distribution<double> jitter_ns(0.0, 5e6);
    constexpr double drift = 1.0 + 100e-6;
    constexpr std::int64_t host_start_ns = 987'654'321'000'000'000;  // a computer that has run for 31 years
    constexpr std::uint64_t device_start_us = 123'456'789'012;
    constexpr int frames = 30 * 60 * 1000;
    const auto true_host_ns = [&](int i) { return host_start_ns + std::llround(i * 1e6 * drift); };
    ClockFitter fitter;
    for (int i = 0; i < frames; ++i) {
        fitter.take(device_start_us + static_cast<std::uint64_t>(i) * 1000,
                    true_host_ns(i) + std::llround(jitter_ns(chance)));
    }
    double square_sum = 0.0;
    double worst = 0.0;
    for (int i = 0; i < frames; ++i) {
        const auto fitted_ns = fitter.host_time_ns(device_start_us + static_cast<std::uint64_t>(i) * 1000);
        const auto error_ns = static_cast<double>(fitted_ns - true_host_ns(i));
        square_sum += error_ns * error_ns;
        worst = std::max(worst, std::abs(error_ns));
    }
    CHECK(std::sqrt(square_sum / frames) < 1e6);
    CHECK(worst < 3e6);
    CHECK(fitter.line().slope == doctest::Approx(drift).epsilon(1e-7));
    CHECK(fitter.line().residual_sd_ns == doctest::Approx(5e6).epsilon(0.01));
}

TEST_CASE("Without jitter the line is exact") {
    ClockFitter fitter;
    for (int i = 0; i < 1000; ++i) fitter.take(500 + i * 1000ULL, 7'000'000 + i * 1'000'050LL);
    CHECK(fitter.line().slope == doctest::Approx(1.00005).epsilon(1e-12));
    CHECK(fitter.line().residual_sd_ns < 1.0);
    CHECK(fitter.host_time_ns(500 + 10 * 1000) == 7'000'000 + 10 * 1'000'050LL);
    CHECK(fitter.line().offset_ns == doctest::Approx(7'000'000 - 500 * 1000 * 1.00005).epsilon(1e-9));
}

TEST_CASE("One frame, or none, gives a line too") {
    ClockFitter fitter;
    CHECK(fitter.line().slope == 1.0);
    fitter.take(1000, 5'000'000);
    CHECK(fitter.line().slope == 1.0);
    CHECK(fitter.line().offset_ns == 4'000'000.0);
    fitter.take(1000, 5'000'000);
    CHECK(fitter.line().slope == 1.0);
}
