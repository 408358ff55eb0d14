#include "acquisition/frame/plate_layout.h"

#include <doctest/doctest.h>

using namespace footing;

namespace {
Plate plate_at(const char* name, double x_m) { return {name, {x_m, 0.0}, {{-0.1, 0.2}, {0.1, 0.2}}}; }
}  // namespace

TEST_CASE("plates are left and right by name, whatever their order") {
    const PlateLayout layout{FrameKind::cells, {plate_at("right", 0.2), plate_at("left", -0.2)}, {}};
    CHECK(plate_sides(layout) == std::vector{PlateSide::right, PlateSide::left});
}

TEST_CASE("two plates with other names are told apart by where they lie") {
    const PlateLayout layout{FrameKind::cells, {plate_at("B", 0.2), plate_at("A", -0.2)}, {}};
    CHECK(plate_sides(layout) == std::vector{PlateSide::right, PlateSide::left});
}

TEST_CASE("one plate carries both feet") {
    const PlateLayout layout{FrameKind::cells, {plate_at("plate", 0.0)}, {}};
    CHECK(plate_sides(layout) == std::vector{PlateSide::whole});
}

TEST_CASE("a grid's first row is at the toes, its first column at the golfer's left") {
    const Grid grid{3, 2, 0.01, 0.02, {1.0, 5.0}};
    const PointM corner = element_position(grid, 0, 0);
    CHECK(corner.x_m == doctest::Approx(0.995));
    CHECK(corner.y_m == doctest::Approx(5.02));
    const PointM middle = element_position(grid, 1, 1);
    CHECK(middle.x_m == doctest::Approx(1.005));
    CHECK(middle.y_m == doctest::Approx(5.0));
}

TEST_CASE("a frame's length follows from the layout") {
    CHECK(values_per_frame({FrameKind::cells, {plate_at("left", 0), plate_at("right", 1)}, {}}) == 4);
    CHECK(values_per_frame({FrameKind::components, {plate_at("left", 0), plate_at("right", 1)}, {}}) == 12);
    CHECK(values_per_frame({FrameKind::grid, {}, Grid{48, 64, 0.01, 0.01, {}}}) == 3072);
}
