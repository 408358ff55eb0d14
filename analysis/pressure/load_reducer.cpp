#include "analysis/pressure/load_reducer.h"

#include <algorithm>
#include <cmath>

namespace footing {

LoadReducer::LoadReducer(PlateLayout layout, LoadOptions options)
    : layout_(std::move(layout)), options_(options), value_count_(values_per_frame(layout_)) {
    if (layout_.kind == FrameKind::grid && layout_.grid) {
        const Grid& grid = *layout_.grid;
        for (std::size_t row = 0; row < grid.rows; ++row)
            row_y_m_.push_back(element_position(grid, row, 0).y_m);
        for (std::size_t column = 0; column < grid.columns; ++column)
            column_x_m_.push_back(element_position(grid, 0, column).x_m);
        column_n_.resize(grid.columns);
        column_y_n_m_.resize(grid.columns);
        midline_ = MatMidline(grid.columns, grid.pitch_x_m);
        feet_known_ = true;
        return;
    }
    sides_ = plate_sides(layout_);
    const auto stands = [&](PlateSide side) { return std::ranges::count(sides_, side) > 0; };
    feet_known_ = stands(PlateSide::left) && stands(PlateSide::right) && !stands(PlateSide::whole);
    for (std::size_t i = 0; i < layout_.plates.size(); ++i) {
        for (std::size_t cell = 0; cell < layout_.plates[i].cells.size(); ++cell) {
            cell_points_.push_back(cell_position(layout_.plates[i], cell));
            cell_sides_.push_back(sides_[i]);
        }
    }
}

LoadSample LoadReducer::reduce(std::span<const double> force_n) {
    if (force_n.size() != value_count_ || force_n.empty()) return {};
    switch (layout_.kind) {
        case FrameKind::cells:
            return reduce_cells(force_n);
        case FrameKind::components:
            return reduce_components(force_n);
        case FrameKind::grid:
            return reduce_grid(force_n);
    }
    return {};
}

std::optional<PointM> LoadReducer::centre(const Sum& sum) const {
    if (!(sum.force_n >= options_.load_floor_n) || sum.force_n <= 0.0) return std::nullopt;
    const PointM point{sum.x_n_m / sum.force_n, sum.y_n_m / sum.force_n};
    if (std::isnan(point.x_m) || std::isnan(point.y_m)) return std::nullopt;
    return point;
}

LoadSample LoadReducer::sample(const Sum& all, const Sum& left, const Sum& right, bool feet_known) const {
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

LoadSample LoadReducer::reduce_cells(std::span<const double> force_n) const {
    Sum all;
    Sum left;
    for (std::size_t i = 0; i < force_n.size(); ++i) {
        const double force = force_n[i];
        const double x_n_m = force * cell_points_[i].x_m;
        const double y_n_m = force * cell_points_[i].y_m;
        const double is_left = cell_sides_[i] == PlateSide::left ? 1.0 : 0.0;
        all.force_n += force;
        all.x_n_m += x_n_m;
        all.y_n_m += y_n_m;
        left.force_n += is_left * force;
        left.x_n_m += is_left * x_n_m;
        left.y_n_m += is_left * y_n_m;
    }
    const Sum right{all.force_n - left.force_n, all.x_n_m - left.x_n_m, all.y_n_m - left.y_n_m};
    return sample(all, left, right, feet_known_);
}

LoadSample LoadReducer::reduce_components(std::span<const double> force_n) const {
    Sum located;
    Sum left;
    Sum right;
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
        Sum& foot = sides_[i] == PlateSide::left ? left : right;
        foot.force_n += vertical_n;
        foot.x_n_m += x_n_m;
        foot.y_n_m += y_n_m;
    }
    LoadSample result = sample(located, left, right, feet_known_);
    result.total_n = total_n;
    if (!(total_n >= options_.load_floor_n)) result.cop.reset();
    return result;
}

LoadSample LoadReducer::reduce_grid(std::span<const double> force_n) {
    // Column by column: load and moment across the rows. Both loops run over neighbours in memory without a
    // sum that would have to wait for itself, so the compiler can do several columns at once.
    const std::size_t columns = column_n_.size();
    std::ranges::fill(column_n_, 0.0);
    std::ranges::fill(column_y_n_m_, 0.0);
    double* const load = column_n_.data();
    double* const moment = column_y_n_m_.data();
    const double threshold = options_.element_threshold_n;
    for (std::size_t row = 0; row < row_y_m_.size(); ++row) {
        const double* const values = force_n.data() + row * columns;
        const double y_m = row_y_m_[row];
        for (std::size_t column = 0; column < columns; ++column) {
            const double value = values[column] >= threshold ? values[column] : 0.0;
            load[column] += value;
            moment[column] += value * y_m;
        }
    }
    double total_n = 0.0;
    for (const double column_n : column_n_) total_n += column_n;
    if (total_n >= options_.load_floor_n) midline_.follow(column_n_, total_n);

    Sum left;
    Sum right;
    for (std::size_t column = 0; column < columns; ++column) {
        Sum& foot = column < midline_.first_right_column() ? left : right;
        foot.force_n += load[column];
        foot.x_n_m += load[column] * column_x_m_[column];
        foot.y_n_m += moment[column];
    }
    const Sum all{left.force_n + right.force_n, left.x_n_m + right.x_n_m, left.y_n_m + right.y_n_m};
    return sample(all, left, right, feet_known_);
}

}  // namespace footing
