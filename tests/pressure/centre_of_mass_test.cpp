#include "analysis/pressure/centre_of_mass.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <vector>

using namespace footing;

namespace {

constexpr double rate_hz = 1000.0;

std::vector<double> wave(double seconds, double amplitude, double frequency_hz) {
    std::vector<double> column;
    for (int i = 0; i < std::lround(seconds * rate_hz); ++i)
        column.push_back(amplitude * std::sin(2.0 * std::numbers::pi * frequency_hz * i / rate_hz));
    return column;
}

}  // namespace

TEST_CASE("natural frequencies of bodies of 1.75 m (w0^2 = m g h / I)") {
    CHECK(natural_frequency({1.75, 0.55, 1.0}) == doctest::Approx(3.19197858).epsilon(1e-8));
    CHECK(natural_frequency({1.75, 0.55, 1.25}) == doctest::Approx(2.85499244).epsilon(1e-8));
    CHECK(natural_frequency({1.75, 0.55, 4.0 / 3.0}) == doctest::Approx(2.76433454).epsilon(1e-8));
}

TEST_CASE("a swaying CoP gives the centre of mass of Caron, Faure & Breniere 1997, in phase") {
    // CoP = 1 at 0.2 Hz + 0.5 at 1 Hz; amplitudes by H = w0^2 / (w0^2 + w^2).
    struct {
        double inertia;
        double slow;
        double quick;
    } const expected[] = {{1.0, 0.865809402, 0.102570092}, {4.0 / 3.0, 0.828739710, 0.081086072}};
    std::vector<double> cop = wave(60.0, 1.0, 0.2);
    const std::vector<double> quick = wave(60.0, 0.5, 1.0);
    for (std::size_t i = 0; i < cop.size(); ++i) cop[i] += quick[i];
    for (const auto& body : expected) {
        const std::vector<double> mass = centre_of_mass_from_cop(cop, rate_hz, {1.75, 0.55, body.inertia});
        REQUIRE(mass.size() == cop.size());
        for (std::size_t i = 25000; i < 35000; i += 7) {
            const double t = static_cast<double>(i) / rate_hz;
            const double wanted = body.slow * std::sin(2.0 * std::numbers::pi * 0.2 * t) +
                                  body.quick * std::sin(2.0 * std::numbers::pi * t);
            REQUIRE(std::abs(mass[i] - wanted) < 1e-8);
        }
    }
}

TEST_CASE("who stands still has the centre of mass over the CoP, up to the very ends") {
    const std::vector<double> mass = centre_of_mass_from_cop(std::vector<double>(500, 0.07), 100.0);
    for (const double place : mass) CHECK(place == doctest::Approx(0.07).epsilon(1e-12));
    CHECK(centre_of_mass_from_cop(std::vector<double>{}, 100.0).empty());
    CHECK(centre_of_mass_from_cop(std::vector<double>{0.1, 0.2}, 100.0).size() == 2);
}

TEST_CASE("the equation of motion holds: CoM less CoP is in proportion to the CoM's acceleration") {
    std::vector<double> cop = wave(20.0, 0.02, 0.7);
    for (std::size_t i = 9000; i < cop.size(); ++i) cop[i] += 0.05;  // a sudden shift
    const std::vector<double> mass = centre_of_mass_from_cop(cop, rate_hz);
    const double w0 = natural_frequency({});
    for (std::size_t i = 3000; i < 8000; i += 11) {
        const double acceleration = (mass[i + 1] - 2.0 * mass[i] + mass[i - 1]) * rate_hz * rate_hz;
        CHECK(mass[i] - cop[i] == doctest::Approx(acceleration / (w0 * w0)).epsilon(1e-3));
    }
}
