// Where the body's mass is estimated: what the pendulum makes of a centre of pressure that is known in closed
// form, and what is left out where it is not known.
#include "analysis/swing/mass_path.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

using namespace footing;

namespace {

constexpr double sway_rate_hz = 200.0;
constexpr double sway_hz = 0.25;

/// Twenty seconds of slow sway to and fro across the plates, 40 mm about x = 50 mm, y at 20 mm.
LoadTrace swaying() {
    LoadTrace trace;
    trace.rate_hz = sway_rate_hz;
    for (int i = 0; i < static_cast<int>(20.0 * sway_rate_hz); ++i) {
        const double t = i / sway_rate_hz;
        trace.time_s.push_back(t);
        trace.total_n.push_back(700.0);
        trace.cop_x_m.push_back(0.05 + 0.04 * std::sin(2.0 * std::numbers::pi * sway_hz * t));
        trace.cop_y_m.push_back(0.02);
        trace.bridged.push_back(0);
    }
    return trace;
}

SwingEvents at_ten_seconds_and_a_quarter_turn_on() {
    SwingEvents events;
    events.address = Event{10.0, 0.1, EventSource::estimated};
    events.impact = Event{11.0, 0.1, EventSource::estimated};  // a quarter of four seconds on
    return events;
}

}  // namespace

TEST_CASE(
    "the mass sways with the pressure, less by w0^2 / (w0^2 + w^2), towards the target of either hand") {
    const Pendulum pendulum;
    const double w0 = natural_frequency(pendulum);
    const double w = 2.0 * std::numbers::pi * sway_hz;
    const double part = w0 * w0 / (w0 * w0 + w * w);  // Caron, Faure & Breniere 1997, J. Biomech. 30:1169
    const LoadTrace trace = swaying();
    const SwingEvents events = at_ten_seconds_and_a_quarter_turn_on();
    const SwingCop right = mass_at_events(trace, Hand::right, pendulum, events);
    const SwingCop left = mass_at_events(trace, Hand::left, pendulum, events);
    REQUIRE(right.address);
    REQUIRE(right.impact);
    REQUIRE(left.impact);
    CHECK_FALSE(right.top);
    // At 10 s the sine passes nought; a second later it is at an end.
    const double at_end = std::sin(2.0 * std::numbers::pi * sway_hz * 11.0);
    REQUIRE(std::abs(at_end) == doctest::Approx(1.0));
    CHECK(right.address->x_m == doctest::Approx(-0.05).epsilon(0.01));
    CHECK(right.impact->x_m == doctest::Approx(-(0.05 + 0.04 * part * at_end)).epsilon(0.01));
    CHECK(left.impact->x_m == doctest::Approx(-right.impact->x_m));
    CHECK(right.impact->y_m == doctest::Approx(0.02).epsilon(1e-6));
    CHECK(left.impact->y_m == doctest::Approx(0.02).epsilon(1e-6));
}

TEST_CASE("where the centre of pressure is not known there is no estimate, beside it there is") {
    LoadTrace trace = swaying();
    for (std::size_t i = 0; i < trace.size(); ++i) {
        if (trace.time_s[i] > 10.9 && trace.time_s[i] < 11.1) trace.cop_y_m[i] = unknown;
    }
    const SwingCop mass = mass_at_events(trace, Hand::right, {}, at_ten_seconds_and_a_quarter_turn_on());
    CHECK(mass.address.has_value());
    CHECK_FALSE(mass.impact.has_value());
    CHECK(mass_path(trace, {}, 10.5, 11.5).place.empty());
    CHECK(mass_path(trace, {}, 9.0, 10.0).place.size() == static_cast<std::size_t>(sway_rate_hz) + 1);
    CHECK(mass_path(LoadTrace{}, {}, 0.0, 1.0).place.empty());
}
