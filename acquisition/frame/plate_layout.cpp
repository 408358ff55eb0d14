#include "acquisition/frame/plate_layout.h"

namespace footing {

std::size_t values_per_frame(const PlateLayout& layout) {
    switch (layout.kind) {
        case FrameKind::grid:
            return layout.grid ? std::size_t{layout.grid->rows} * layout.grid->columns : 0;
        case FrameKind::components: return layout.plates.size() * components_per_plate;
        case FrameKind::cells: break;
    }
    std::size_t count = 0;
    for (const Plate& plate : layout.plates) count += plate.cells.size();
    return count;
}

PointM cell_position(const Plate& plate, std::size_t cell) {
    return {plate.centre.x_m + plate.cells[cell].x_m, plate.centre.y_m + plate.cells[cell].y_m};
}

PointM element_position(const Grid& grid, std::size_t row, std::size_t column) {
    const double from_middle_columns = static_cast<double>(column) - 0.5 * (grid.columns - 1.0);
    const double from_middle_rows = static_cast<double>(row) - 0.5 * (grid.rows - 1.0);
    return {grid.centre.x_m + from_middle_columns * grid.pitch_x_m,
            grid.centre.y_m - from_middle_rows * grid.pitch_y_m};
}

std::vector<PlateSide> plate_sides(const PlateLayout& layout) {
    std::vector<PlateSide> sides(layout.plates.size(), PlateSide::whole);
    bool all_named = !sides.empty();
    for (std::size_t i = 0; i < sides.size(); ++i) {
        if (layout.plates[i].name == "left") {
            sides[i] = PlateSide::left;
        } else if (layout.plates[i].name == "right") {
            sides[i] = PlateSide::right;
        } else {
            all_named = false;
        }
    }
    if (!all_named && sides.size() == 2) {
        const bool first_is_left = layout.plates[0].centre.x_m <= layout.plates[1].centre.x_m;
        sides[0] = first_is_left ? PlateSide::left : PlateSide::right;
        sides[1] = first_is_left ? PlateSide::right : PlateSide::left;
    }
    return sides;
}

}  // namespace footing
