#include "analysis/pressure/load_reducer.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "analysis/pressure/lead_share.h"

using namespace footing;

namespace {

PlateLayout two_plates() {
    PlateLayout layout;
    layout.kind = FrameKind::cells;
    const std::vector<PointM> corners{{-0.1, 0.15}, {0.1, 0.15}, {-0.1, -0.15}, {0.1, -0.15}};
    layout.plates = {{"left", {-0.15, 0.0}, corners}, {"right", {0.15, 0.0}, corners}};
    return layout;
}

PlateLayout components_on(PointM left, PointM right) {
    PlateLayout layout;
    layout.kind = FrameKind::components;
    layout.plates = {{"left", left, {}}, {"right", right, {}}};
    return layout;
}

PlateLayout mat(std::uint32_t rows, std::uint32_t columns, double pitch_m, PointM centre) {
    PlateLayout layout;
    layout.kind = FrameKind::grid;
    layout.grid = Grid{rows, columns, pitch_m, pitch_m, centre};
    return layout;
}

/// Forces of four cells under a load at a point of their plate, by the lever (bilinear between the corners).
std::vector<double> corner_forces(double load_n, double across, double along) {
    const double right = 0.5 + 0.5 * across;
    const double top = 0.5 + 0.5 * along;
    return {load_n * (1 - right) * top, load_n * right * top, load_n * (1 - right) * (1 - top),
            load_n * right * (1 - top)};
}

}  // namespace

TEST_CASE("four corners: the CoP is the mean of the places weighted by the loads") {
    // Worked example of a four-corner plate (statics; x = sum F x / sum F).
    PlateLayout layout;
    layout.plates = {{"only", {0, 0}, {{-0.2, 0.3}, {0.2, 0.3}, {-0.2, -0.3}, {0.2, -0.3}}}};
    LoadReducer reducer(layout);
    const LoadSample sample = reducer.reduce(std::vector<double>{220, 150, 250, 80});
    CHECK(sample.total_n == 700.0);
    REQUIRE(sample.cop);
    CHECK(sample.cop->x_m == doctest::Approx(-0.068571428571428575).epsilon(1e-12));
    CHECK(sample.cop->y_m == doctest::Approx(0.017142857142857144).epsilon(1e-12));
    // One plate alone cannot tell the feet apart.
    CHECK_FALSE(known(sample.left_n));
    CHECK_FALSE(sample.left_cop);
    // Equal forces: the middle; one corner only: that corner.
    CHECK(std::abs(reducer.reduce(std::vector<double>{90, 90, 90, 90}).cop->x_m) < 1e-15);
    CHECK(reducer.reduce(std::vector<double>{0, 400, 0, 0}).cop->y_m == doctest::Approx(0.3));
}

TEST_CASE("two plates: share and joint CoP") {
    // Worked example: 420 N at (-0.15, 0.02), 280 N at (0.15, -0.04) gives (-0.03, -0.004) and 60 %.
    LoadReducer reducer(components_on({-0.15, 0.0}, {0.15, 0.0}));
    const LoadSample sample =
        reducer.reduce(std::vector<double>{0, 0, 420, 420 * 0.02, 0, 0, 0, 0, 280, 280 * -0.04, 0, 0});
    REQUIRE(sample.cop);
    CHECK(sample.cop->x_m == doctest::Approx(-0.03).epsilon(1e-12));
    CHECK(sample.cop->y_m == doctest::Approx(-0.004).epsilon(1e-12));
    CHECK(lead_share(sample, Hand::right) == doctest::Approx(0.6).epsilon(1e-12));
    CHECK(lead_share(sample, Hand::left) == doctest::Approx(0.4).epsilon(1e-12));
}

TEST_CASE("moments: x = -My/Fz and y = Mx/Fz about the plate's own origin") {
    LoadReducer reducer(components_on({-0.2, 0.1}, {0.2, 0.1}));
    // 500 N, 0.03 m to the right of and 0.05 m ahead of the left plate's origin: M = r x F with F up on the
    // body, so the plate feels Mx = y Fz, My = -x Fz.
    const LoadSample sample =
        reducer.reduce(std::vector<double>{0, 0, 500, 25, -15, 0, 0, 0, 5, unknown, unknown, 0});
    REQUIRE(sample.left_cop);
    CHECK(sample.left_cop->x_m == doctest::Approx(-0.17));
    CHECK(sample.left_cop->y_m == doctest::Approx(0.15));
    CHECK_FALSE(sample.right_cop);
    // The right foot's place is not known, and it bears next to nothing: the joint CoP is that of the left
    // foot.
    REQUIRE(sample.cop);
    CHECK(sample.cop->x_m == doctest::Approx(-0.17));
    CHECK(sample.total_n == 505.0);
}

TEST_CASE("a foot that stands at an unknown place leaves the joint CoP unknown") {
    LoadReducer reducer(components_on({-0.2, 0.0}, {0.2, 0.0}));
    const LoadSample sample =
        reducer.reduce(std::vector<double>{0, 0, 300, 0, 0, 0, 0, 0, 300, unknown, unknown, 0});
    CHECK_FALSE(sample.cop);
    CHECK(lead_share(sample, Hand::right) == doctest::Approx(0.5));
}

TEST_CASE("physics of cells: known loads at known points") {
    LoadReducer reducer(two_plates());
    std::mt19937_64 random(4);
    std::uniform_real_distribution<double> place(-1.0, 1.0);
    std::uniform_real_distribution<double> load(30.0, 900.0);
    for (int i = 0; i < 500; ++i) {
        const double left_n = load(random);
        const double right_n = load(random);
        const double lx = place(random), ly = place(random), rx = place(random), ry = place(random);
        std::vector<double> cells = corner_forces(left_n, lx, ly);
        const std::vector<double> right = corner_forces(right_n, rx, ry);
        cells.insert(cells.end(), right.begin(), right.end());
        const LoadSample sample = reducer.reduce(cells);
        REQUIRE(sample.left_cop);
        REQUIRE(sample.right_cop);
        CHECK(sample.left_cop->x_m == doctest::Approx(-0.15 + 0.1 * lx).epsilon(1e-10));
        CHECK(sample.left_cop->y_m == doctest::Approx(0.15 * ly).epsilon(1e-10));
        CHECK(sample.right_cop->x_m == doctest::Approx(0.15 + 0.1 * rx).epsilon(1e-10));
        // The feet add up to 100 %.
        CHECK(lead_share(sample, Hand::right) + lead_share(sample, Hand::left) ==
              doctest::Approx(1.0).epsilon(1e-14));
        CHECK(sample.left_n + sample.right_n == doctest::Approx(sample.total_n).epsilon(1e-14));
        // The joint CoP is the loads' mean of the feet's, inside the hull of the cells.
        const double joint =
            (left_n * sample.left_cop->x_m + right_n * sample.right_cop->x_m) / (left_n + right_n);
        CHECK(sample.cop->x_m == doctest::Approx(joint).epsilon(1e-10));
        CHECK(std::abs(sample.cop->x_m) <= 0.25 + 1e-12);
        CHECK(std::abs(sample.cop->y_m) <= 0.15 + 1e-12);
        // Twice the load leaves it where it is.
        for (double& cell : cells) cell *= 2.0;
        const LoadSample twice = reducer.reduce(cells);
        CHECK(twice.cop->x_m == doctest::Approx(sample.cop->x_m).epsilon(1e-12));
        CHECK(twice.total_n == doctest::Approx(2.0 * sample.total_n).epsilon(1e-14));
    }
}

TEST_CASE("no centre of pressure below the load floor") {
    LoadReducer reducer(two_plates());
    const LoadSample light = reducer.reduce(std::vector<double>{2, 2, 2, 2, 1, 1, 1, 1});
    CHECK_FALSE(light.cop);
    CHECK_FALSE(known(lead_share(light, Hand::right)));
    const LoadSample one_foot = reducer.reduce(std::vector<double>{100, 100, 100, 100, 1, 1, 1, 1});
    CHECK(one_foot.left_cop);
    CHECK_FALSE(one_foot.right_cop);
    CHECK(one_foot.cop);
    // A frame of another length says nothing, rather than something wrong.
    CHECK_FALSE(reducer.reduce(std::vector<double>{500, 500}).cop);
}

TEST_CASE("grid: centroid over element centres, threshold, clipping") {
    // Worked examples for a 2 x 3 grid with 10 mm pitch and rows [1 2 3], [4 5 6] counted from the outer
    // corner (F = sum p, x = sum p x / sum p). There row 1 is at y = 5 mm; here row 1 is at the toes, so y is
    // mirrored.
    LoadOptions options;
    options.load_floor_n = 1.0;
    const PlateLayout layout = mat(2, 3, 0.010, {0.015, 0.010});
    const auto mirrored = [](double y_mm) { return 0.020 - y_mm * 1e-3; };
    LoadReducer plain(layout, options);
    LoadSample sample = plain.reduce(std::vector<double>{1, 2, 3, 4, 5, 6});
    CHECK(sample.total_n == doctest::Approx(21.0));
    CHECK(sample.cop->x_m == doctest::Approx(16.904761904761905e-3).epsilon(1e-12));
    CHECK(sample.cop->y_m == doctest::Approx(mirrored(12.142857142857142)).epsilon(1e-12));
    sample = plain.reduce(std::vector<double>{1, 2, 3, 4, 4, 4});  // clipped at 4
    CHECK(sample.cop->x_m == doctest::Approx(16.11111111111111e-3).epsilon(1e-12));
    CHECK(sample.cop->y_m == doctest::Approx(mirrored(11.666666666666666)).epsilon(1e-12));
    sample = plain.reduce(std::vector<double>{0, 0, 0, 0, 7, 0});
    CHECK(sample.cop->x_m == doctest::Approx(15e-3).epsilon(1e-12));  // one element: its centre
    options.element_threshold_n = 2.5;
    LoadReducer cut(layout, options);
    sample = cut.reduce(std::vector<double>{1, 2, 3, 4, 5, 6});
    CHECK(sample.total_n == doctest::Approx(18.0));
    CHECK(sample.cop->x_m == doctest::Approx(17.77777777777778e-3).epsilon(1e-12));
    CHECK(sample.cop->y_m == doctest::Approx(mirrored(13.333333333333334)).epsilon(1e-12));
}

namespace {

/// Two feet as ellipses on a mat.
std::vector<double> feet_on_mat(const Grid& grid, double left_x_m, double right_x_m, double left_n,
                                double right_n) {
    std::vector<double> values(std::size_t{grid.rows} * grid.columns, 0.0);
    const auto press = [&](double x_m, double load_n) {
        std::vector<std::size_t> under;
        for (std::size_t row = 0; row < grid.rows; ++row) {
            for (std::size_t column = 0; column < grid.columns; ++column) {
                const PointM at = element_position(grid, row, column);
                if (std::hypot((at.x_m - x_m) / 0.045, at.y_m / 0.13) < 1.0)
                    under.push_back(row * grid.columns + column);
            }
        }
        for (const std::size_t i : under) values[i] += load_n / static_cast<double>(under.size());
    };
    press(left_x_m, left_n);
    press(right_x_m, right_n);
    return values;
}

}  // namespace

TEST_CASE("a mat tells the feet apart wherever they stand, and keeps them apart when one is lifted") {
    const PlateLayout layout = mat(48, 48, 0.0125, {0, 0});
    LoadReducer reducer(layout);
    const Grid& grid = *layout.grid;
    // Both feet on the left half of the mat: the mat's centre would give all to the left foot.
    for (int i = 0; i < 200; ++i) (void)reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 300, 400));
    LoadSample sample = reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 300, 400));
    CHECK(lead_share(sample, Hand::right) == doctest::Approx(3.0 / 7.0).epsilon(1e-9));
    REQUIRE(sample.left_cop);
    CHECK(sample.left_cop->x_m == doctest::Approx(-0.24).epsilon(0.03));
    CHECK(sample.left_n + sample.right_n == doctest::Approx(sample.total_n).epsilon(1e-12));
    const double joint =
        (sample.left_n * sample.left_cop->x_m + sample.right_n * sample.right_cop->x_m) / sample.total_n;
    CHECK(sample.cop->x_m == doctest::Approx(joint).epsilon(1e-12));
    // 95 % on the lead foot, then the trail foot in the air.
    for (int i = 0; i < 300; ++i) (void)reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 665, 35));
    sample = reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 665, 35));
    CHECK(lead_share(sample, Hand::right) == doctest::Approx(0.95).epsilon(1e-9));
    for (int i = 0; i < 2000; ++i) (void)reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 700, 0));
    sample = reducer.reduce(feet_on_mat(grid, -0.24, -0.06, 700, 0));
    CHECK(lead_share(sample, Hand::right) == doctest::Approx(1.0).epsilon(1e-9));
}
