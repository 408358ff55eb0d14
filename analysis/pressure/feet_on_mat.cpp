#include "analysis/pressure/feet_on_mat.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/foot_shape.h"

namespace footing {

namespace {

FootOnMat describe(const MatArea& area, const Grid& grid, FootSide side) {
    FootOnMat foot;
    foot.load_n = load_of(area);
    foot.elements = area.size();
    for (const MatElement& one : area) {
        foot.cop.x_m += one.load_n * one.at.x_m / foot.load_n;
        foot.cop.y_m += one.load_n * one.at.y_m / foot.load_n;
        foot.clipped += one.clipped ? 1 : 0;
        foot.dead += one.filled ? 1 : 0;
    }
    const FootShape shape = foot_shape(area, grid);
    foot.centre = shape.centre;
    foot.length_m = shape.length_m;
    foot.toe_out_rad = toe_out_rad(shape, side);
    if (!shape.turn_rad) return foot;
    const FootLine line(shape, side, grid);
    double toe_n = 0.0;
    double outside_n = 0.0;
    for (const MatElement& one : area) {
        toe_n += one.load_n * line.toe_part(one.at);
        outside_n += one.load_n * line.outside_part(one.at);
    }
    foot.toe_share = toe_n / foot.load_n;
    foot.outside_share = outside_n / foot.load_n;
    return foot;
}

}  // namespace

FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n, const FeetOptions& options,
                    double midline_x_m) {
    FeetOnMat feet;
    const std::size_t count = std::size_t{grid.rows} * grid.columns;
    if (count == 0 || force_n.size() != count || !(options.dead.empty() || options.dead.size() == count))
        return feet;
    if (!std::ranges::all_of(force_n, [](double one) { return std::isfinite(one); })) return feet;

    std::vector<double> load_n(force_n.begin(), force_n.end());
    fill_dead(grid, options, load_n);
    const MatAreas found = find_areas(grid, load_n, options);
    feet.blobs = found.blobs;
    feet.other_n = found.other_n;
    const std::vector<MatArea>& areas = found.areas;
    std::size_t feet_found = 0;
    for (std::size_t i = 0; i < areas.size(); ++i) {
        const double load = load_of(areas[i]);
        if (i == feet_found && feet_found < 2 && load > 0.0 && load >= options.least_foot_n) {
            ++feet_found;
        } else {
            feet.other_n += load;
        }
    }
    if (feet_found == 2) {
        const bool first_is_left = centre_of(areas[0]).x_m <= centre_of(areas[1]).x_m;
        feet.left = describe(areas[first_is_left ? 0 : 1], grid, FootSide::left);
        feet.right = describe(areas[first_is_left ? 1 : 0], grid, FootSide::right);
        feet.stance_width_m = feet.right->centre.x_m - feet.left->centre.x_m;
    } else if (feet_found == 1) {
        if (centre_of(areas[0]).x_m < midline_x_m) {
            feet.left = describe(areas[0], grid, FootSide::left);
        } else {
            feet.right = describe(areas[0], grid, FootSide::right);
        }
    }
    return feet;
}

FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n, const FeetOptions& options) {
    return find_feet(grid, force_n, options, grid.centre.x_m);
}

}  // namespace footing
