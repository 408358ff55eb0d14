#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "acquisition/device/golfer_body.h"

using namespace footing;

namespace {

GolferBody body_of(std::uint64_t seed, std::size_t swings = 9) {
    const GolferStyle style = random_style(seed);
    return {style, write_script(style, swings, seed), seed};
}

std::vector<GroundLoad> sampled(const GolferBody& body, double from_s, double to_s, double rate_hz) {
    std::vector<GroundLoad> ground;
    for (double time = from_s; time < to_s; time += 1.0 / rate_hz) ground.push_back(body.at(time));
    return ground;
}

}  // namespace

// Reference: impulse and momentum. At rest at both ends, the mean vertical force is the weight.
TEST_CASE("over the time on the plates the mean vertical force is the body's weight") {
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        const GolferBody body = body_of(seed);
        double sum = 0.0;
        const auto ground = sampled(body, body.script().on_from_s, body.script().on_to_s, 500.0);
        for (const GroundLoad& load : ground) sum += load.total_n();
        const double weight = body.style().mass_kg * standard_gravity_m_s2;
        CHECK(sum / static_cast<double>(ground.size()) == doctest::Approx(weight).epsilon(1e-3));
    }
}

TEST_CASE("plates are empty before stepping on and after stepping off") {
    const GolferBody body = body_of(3);
    CHECK(body.at(0.0).total_n() == 0.0);
    CHECK(body.at(3.9).total_n() == 0.0);
    CHECK(body.at(body.script().end_s - 0.1).total_n() == 0.0);
    CHECK_FALSE(body.lead_share(body.at(1.0)).has_value());
}

// Balance of moments about the ground: with the mass at rest, the CoP of both feet lies under it.
TEST_CASE("a body that stands still has its centre of pressure under its mass") {
    GolferStyle style;
    style.unrest_m = 0.0;
    GolferScript script;
    script.first_support.step(0.0, 0.5, 1.0);
    script.second_support.step(0.0, 0.5, 1.0);
    script.along.step(0.0, 0.5, 0.07);
    script.ahead.step(0.0, 0.5, 0.02);
    for (MotionPath* path : {&script.along, &script.ahead, &script.up, &script.toe_difference,
                             &script.first_support, &script.second_support}) {
        path->seal();
    }
    const GolferBody body(style, script, 1);
    const GroundLoad ground = body.on_purpose(2.0);
    const double total = ground.total_n();
    const double x =
        (ground.left.load_n * ground.left.cop.x_m + ground.right.load_n * ground.right.cop.x_m) / total;
    const double y =
        (ground.left.load_n * ground.left.cop.y_m + ground.right.load_n * ground.right.cop.y_m) / total;
    CHECK(total == doctest::Approx(75.0 * 9.80665).epsilon(1e-12));
    CHECK(x ==
          doctest::Approx(-0.07).epsilon(1e-12));  // towards the target is to a right-handed golfer's left
    CHECK(y == doctest::Approx(0.02).epsilon(1e-12));
}

// Newton: the force on the ground is m (g + a). The acceleration is known by differencing the path,
// independently of the formula for it.
TEST_CASE("accelerations are the second derivative of the path") {
    MotionPath path;
    path.step(0.3, 1.1, 0.05);
    path.swell(0.5, 2.5, -0.2);
    path.wave(1.0, 3.0, 0.01, 1.4);
    path.step(2.2, 2.6, -0.03);
    path.seal();
    const double h = 1e-4;
    for (double time = 0.0; time < 4.0; time += 0.0137) {
        const double by_difference =
            (path.at(time + h).position - 2.0 * path.at(time).position + path.at(time - h).position) /
            (h * h);
        CHECK(path.at(time).acceleration == doctest::Approx(by_difference).epsilon(1e-3).scale(1.0));
    }
    CHECK(path.at(10.0).position == doctest::Approx(0.02).epsilon(1e-12));
    const Unrest sway(0.002, 0.07, 0.2, 1.3, 14, 5);
    double square = 0.0;
    for (int i = 0; i < 60000; ++i) square += std::pow(sway.at(i * 0.01).position, 2);
    CHECK(std::sqrt(square / 60000) == doctest::Approx(0.002).epsilon(0.1));
}

TEST_CASE("each foot's pressure stays within the foot, and no foot pulls") {
    for (std::uint64_t seed = 1; seed <= 4; ++seed) {
        const GolferBody body = body_of(seed);
        for (const GroundLoad& ground : sampled(body, 0.0, body.script().end_s, 100.0)) {
            REQUIRE(ground.left.load_n >= 0.0);
            REQUIRE(ground.right.load_n >= 0.0);
            REQUIRE(std::abs(ground.left.cop.x_m - body.left_foot().x_m) <= 0.045);
            REQUIRE(std::abs(ground.right.cop.x_m - body.right_foot().x_m) <= 0.045);
            REQUIRE(std::abs(ground.left.cop.y_m) <= 0.13);
            REQUIRE(std::abs(ground.right.cop.y_m) <= 0.13);
        }
    }
}

TEST_CASE("the left-handed student is the mirror image of the right-handed one") {
    GolferStyle right;
    GolferStyle left = right;
    left.hand = Hand::left;
    const GolferBody a(right, write_script(right, 3, 7), 7);
    const GolferBody b(left, write_script(left, 3, 7), 7);
    for (double time = 0.0; time < a.script().end_s; time += 0.05) {
        const GroundLoad one = a.at(time);
        const GroundLoad other = b.at(time);
        REQUIRE(one.left.load_n == other.right.load_n);
        REQUIRE(one.right.load_n == other.left.load_n);
        REQUIRE(one.left.cop.x_m == -other.right.cop.x_m);
        REQUIRE(one.left.cop.y_m == other.right.cop.y_m);
    }
}

TEST_CASE("students are drawn within what coaches see (common practice, no source)") {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const GolferStyle style = random_style(seed);
        CHECK(style.mass_kg >= 45.0);
        CHECK(style.mass_kg <= 130.0);
        CHECK(style.address_share >= 0.70);
        CHECK(style.address_share <= 0.80);
    }
}
