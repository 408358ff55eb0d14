#include "analysis/pressure/load_reducer.h"

#include <algorithm>
#include <cmath>

namespace footing {

LoadReducer::LoadReducer(PlateLayout layout, LoadOptions options)
    : layout_(std::move(layout)), options_(options), value_count_(values_per_frame(layout_)) {
    if (layout_.kind == FrameKind::grid && layout_.grid) {
        const Grid& grid = *layout_.grid;
        columns_ = MatColumns(grid);
        midline_ = MatMidline(grid.columns, grid.pitch_x_m);
        feet_options_.element_threshold_n = options_.element_threshold_n;
        feet_options_.least_foot_n = options_.load_floor_n;
        if (options_.dead.size() == value_count_) {
            feet_options_.dead = options_.dead;
            filled_n_.resize(value_count_);
        }
        follower_.emplace(grid, feet_options_);
        feet_known_ = true;
        return;
    }
    sides_ = plate_sides(layout_);
    const auto stands = [&](PlateSide side) { return std::ranges::count(sides_, side) > 0; };
    feet_known_ = stands(PlateSide::left) && stands(PlateSide::right) && !stands(PlateSide::whole);
    if (layout_.kind == FrameKind::cells)
        cells_ = CellLoads(layout_, sides_, feet_known_, options_.load_floor_n);
}

LoadSample LoadReducer::reduce(std::span<const double> force_n) {
    if (force_n.size() != value_count_ || force_n.empty()) return {};
    switch (layout_.kind) {
        case FrameKind::cells:
            return sample_of(cells_.reduce(force_n));
        case FrameKind::components:
            return reduce_components(force_n);
        case FrameKind::grid:
            return reduce_grid(force_n);
    }
    return {};
}

std::optional<PointM> LoadReducer::centre(const LoadSum& sum) const {
    if (!(sum.force_n >= options_.load_floor_n) || sum.force_n <= 0.0) return std::nullopt;
    const PointM point{sum.x_n_m / sum.force_n, sum.y_n_m / sum.force_n};
    if (std::isnan(point.x_m) || std::isnan(point.y_m)) return std::nullopt;
    return point;
}

LoadSample LoadReducer::sample(const LoadSum& all, const LoadSum& left, const LoadSum& right,
                               bool feet_known) const {
    LoadSample result;
    result.total_n = all.force_n;
    result.cop = centre(all);
    if (feet_known) {
        result.left_n = left.force_n;
        result.right_n = right.force_n;
        result.left_cop = centre(left);
        result.right_cop = centre(right);
    }
    return result;
}

void LoadReducer::reduce_rows(std::span<const double> force_n, std::size_t first_row,
                              LoadColumns& into) const {
    cells_.reduce(force_n, first_row, into);
}

LoadSample LoadReducer::reduce_components(std::span<const double> force_n) const {
    LoadSum located;
    LoadSum left;
    LoadSum right;
    double total_n = 0.0;
    for (std::size_t i = 0; i < layout_.plates.size(); ++i) {
        const std::span<const double> plate = force_n.subspan(i * components_per_plate, components_per_plate);
        const double vertical_n = plate[2];
        const PointM& origin = layout_.plates[i].centre;
        const double x_n_m = vertical_n * origin.x_m - plate[4];
        const double y_n_m = vertical_n * origin.y_m + plate[3];
        total_n += vertical_n;
        // A foot in the air has no CoP; that must not cost us the CoP of the foot that stands.
        const bool is_located = !std::isnan(x_n_m) && !std::isnan(y_n_m);
        if (is_located || vertical_n >= options_.load_floor_n) {
            located.force_n += vertical_n;
            located.x_n_m += x_n_m;
            located.y_n_m += y_n_m;
        }
        LoadSum& foot = sides_[i] == PlateSide::left ? left : right;
        foot.force_n += vertical_n;
        foot.x_n_m += x_n_m;
        foot.y_n_m += y_n_m;
    }
    LoadSample result = sample(located, left, right, feet_known_);
    result.total_n = total_n;
    if (!(total_n >= options_.load_floor_n)) result.cop.reset();
    return result;
}

MatReading LoadReducer::read_feet(FeetTold told) const {
    MatReading reading;
    reading.told = told;
    if (told != FeetTold::areas) return reading;
    const auto foot = [&](const FootSum& sum, const FootShape& shape, FootSide side) {
        FootOnMatNow now;
        if (const auto angle = toe_out_rad(shape, side)) now.toe_out_rad = static_cast<float>(*angle);
        if (!shape.turn_rad || !(sum.zone_n >= options_.load_floor_n)) return now;
        now.toe_share = static_cast<float>(sum.toe_n / sum.zone_n);
        now.outside_share = static_cast<float>(sum.outside_n / sum.zone_n);
        return now;
    };
    reading.left = foot(follower_->left(), follower_->left_shape(), FootSide::left);
    reading.right = foot(follower_->right(), follower_->right_shape(), FootSide::right);
    reading.stance_width_m =
        static_cast<float>(follower_->right_shape().centre.x_m - follower_->left_shape().centre.x_m);
    reading.other_n = static_cast<float>(follower_->other().force_n);
    return reading;
}

LoadSample LoadReducer::reduce_grid(std::span<const double> force_n) {
    if (!filled_n_.empty()) {
        std::ranges::copy(force_n, filled_n_.begin());
        fill_dead(*layout_.grid, feet_options_, filled_n_);
        force_n = filled_n_;
    }
    const double total_n = columns_.add_up(force_n, options_.element_threshold_n);
    if (total_n >= options_.load_floor_n) midline_.follow(columns_.load_n(), total_n);
    const FeetTold told = follower_->follow(force_n, total_n);

    LoadSum left;
    LoadSum right;
    if (told == FeetTold::areas) {
        left = follower_->left().load;
        right = follower_->right().load;
    } else {
        left = columns_.between(0, midline_.first_right_column());
        right = columns_.between(midline_.first_right_column(), columns_.load_n().size());
    }
    const LoadSum all{left.force_n + right.force_n, left.x_n_m + right.x_n_m, left.y_n_m + right.y_n_m};
    LoadSample result = sample(all, left, right, feet_known_);
    result.mat = read_feet(told);
    if (clip_n_.size() == force_n.size()) {
        std::size_t clipped = 0;
        for (std::size_t i = 0; i < force_n.size(); ++i) clipped += force_n[i] >= clip_n_[i] ? 1 : 0;
        result.mat->clipped = static_cast<std::uint16_t>(std::min<std::size_t>(clipped, 65535));
    }
    return result;
}

}  // namespace footing
