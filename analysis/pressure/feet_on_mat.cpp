#include "analysis/pressure/feet_on_mat.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <numeric>
#include <utility>

namespace footing {

namespace {

constexpr double most_turn_rad = std::numbers::pi / 4.0;
// The toes of one foot and the heel of the other lie further off ahead than heel and toes of a foot that is
// turned out as far as golfers do. Parts nearer than this may lie in any direction: toes beside each other.
constexpr double most_turn_between_parts_rad = std::numbers::pi * 38.0 / 180.0;
constexpr double near_parts_m = 0.08;
constexpr int turns = 19;                 // 5 degrees apart
constexpr double least_length_m = 0.15;   // shorter, and only a part of the foot touches
constexpr double least_elongation = 1.5;  // of the touched area, as a ratio of standard deviations
constexpr std::size_t neighbours_to_fill = 3;
constexpr std::size_t most_areas = 32;

struct Element {
    PointM at;
    double load_n = 0.0;
    bool clipped = false;
    bool filled = false;
};

using Area = std::vector<Element>;

double load_of(const Area& area) {
    return std::accumulate(area.begin(), area.end(), 0.0,
                           [](double sum, const Element& one) { return sum + one.load_n; });
}

PointM centre_of(const Area& area) {
    PointM sum;
    for (const Element& one : area) {
        sum.x_m += one.at.x_m;
        sum.y_m += one.at.y_m;
    }
    const auto count = static_cast<double>(area.size());
    return {sum.x_m / count, sum.y_m / count};
}

/// Reach of an area along and across a direction, which is turned by `turn_rad` from ahead towards the right.
struct Reach {
    double from_m = 0.0;
    double to_m = 0.0;
    double width_m = 0.0;
    [[nodiscard]] double length_m() const { return to_m - from_m; }
};

double along(PointM at, double turn_rad) {
    return at.x_m * std::sin(turn_rad) + at.y_m * std::cos(turn_rad);
}
double across(PointM at, double turn_rad) {
    return at.x_m * std::cos(turn_rad) - at.y_m * std::sin(turn_rad);
}

Reach reach_of(const Area& area, double turn_rad, const Grid& grid) {
    double from = std::numeric_limits<double>::infinity();
    double to = -from;
    double low = from;
    double high = -from;
    for (const Element& one : area) {
        from = std::min(from, along(one.at, turn_rad));
        to = std::max(to, along(one.at, turn_rad));
        low = std::min(low, across(one.at, turn_rad));
        high = std::max(high, across(one.at, turn_rad));
    }
    // Elements have a size of their own.
    return {from - 0.5 * grid.pitch_y_m, to + 0.5 * grid.pitch_y_m, high - low + grid.pitch_x_m};
}

/// Whether some direction within 45 degrees of ahead makes it no longer and no wider than a foot.
bool fits_a_foot(const Area& area, const Grid& grid, const FeetOptions& options) {
    for (int i = 0; i < turns; ++i) {
        const double turn = most_turn_rad * (2.0 * i / (turns - 1) - 1.0);
        const Reach reach = reach_of(area, turn, grid);
        if (reach.width_m <= options.most_width_m && reach.length_m() <= options.most_length_m) return true;
    }
    return false;
}

/// Between the boxes round two areas.
double distance(const Area& a, const Area& b) {
    const auto gap = [](const Area& one, const Area& other, double PointM::*coordinate) {
        const auto by = [&](const Element& x, const Element& y) {
            return x.at.*coordinate < y.at.*coordinate;
        };
        const auto [low, high] = std::ranges::minmax_element(one, by);
        const auto [other_low, other_high] = std::ranges::minmax_element(other, by);
        return std::max({0.0, other_low->at.*coordinate - high->at.*coordinate,
                         low->at.*coordinate - other_high->at.*coordinate});
    };
    return std::hypot(gap(a, b, &PointM::x_m), gap(a, b, &PointM::y_m));
}

/// Two feet that touch: parts an area at the column that bears least between the middles of its two halves.
std::pair<Area, Area> part_in_two(const Area& area, const Grid& grid) {
    const PointM centre = centre_of(area);
    double left_x = 0.0;
    double right_x = 0.0;
    double left_n = 0.0;
    double right_n = 0.0;
    for (const Element& one : area) {
        const bool is_left = one.at.x_m < centre.x_m;
        (is_left ? left_x : right_x) += one.load_n * one.at.x_m;
        (is_left ? left_n : right_n) += one.load_n;
    }
    double best_x = centre.x_m;
    if (left_n > 0.0 && right_n > 0.0) {
        const double from = left_x / left_n;
        const double to = right_x / right_n;
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const double x = element_position(grid, 0, column).x_m;
            if (x < from || x > to) continue;
            double load = 0.0;
            for (const Element& one : area) {
                if (std::abs(one.at.x_m - x) < 0.5 * grid.pitch_x_m) load += one.load_n;
            }
            const bool nearer = std::abs(x - centre.x_m) < std::abs(best_x - centre.x_m);
            if (load < least || (load == least && nearer)) {
                least = load;
                best_x = x;
            }
        }
    }
    std::pair<Area, Area> parts;
    for (const Element& one : area) (one.at.x_m < best_x ? parts.first : parts.second).push_back(one);
    return parts;
}

/// Each connected area; those wider than a foot in two.
std::vector<Area> parted(std::vector<Area> areas, const Grid& grid, const FeetOptions& options) {
    std::vector<Area> result;
    for (Area& area : areas) {
        const Reach level = reach_of(area, 0.0, grid);
        if (level.width_m > options.most_width_m && !fits_a_foot(area, grid, options)) {
            auto [left, right] = part_in_two(area, grid);
            if (!left.empty()) result.push_back(std::move(left));
            if (!right.empty()) result.push_back(std::move(right));
        } else {
            result.push_back(std::move(area));
        }
    }
    return result;
}

/// Whether two areas lie one ahead of the other, as heel and forefoot do.
bool in_line(const Area& a, const Area& b) {
    const PointM from = centre_of(a);
    const PointM to = centre_of(b);
    const double x = std::abs(to.x_m - from.x_m);
    const double y = std::abs(to.y_m - from.y_m);
    return std::hypot(x, y) < near_parts_m || std::atan2(x, y) <= most_turn_between_parts_rad;
}

/// Joins the nearest areas first, as long as they make one foot.
std::vector<Area> joined(std::vector<Area> areas, const Grid& grid, const FeetOptions& options) {
    struct Pair {
        double distance_m;
        std::size_t one;
        std::size_t other;
    };
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < areas.size(); ++i) {
        for (std::size_t k = i + 1; k < areas.size(); ++k) {
            const double apart = distance(areas[i], areas[k]);
            if (apart < options.most_length_m) pairs.push_back({apart, i, k});
        }
    }
    std::ranges::stable_sort(pairs, {}, &Pair::distance_m);
    std::vector<std::size_t> home(areas.size());
    std::iota(home.begin(), home.end(), std::size_t{0});
    for (const Pair& pair : pairs) {
        const std::size_t a = home[pair.one];
        const std::size_t b = home[pair.other];
        if (a == b || !in_line(areas[a], areas[b])) continue;
        Area both = areas[a];
        both.insert(both.end(), areas[b].begin(), areas[b].end());
        if (!fits_a_foot(both, grid, options)) continue;
        areas[a] = std::move(both);
        areas[b].clear();
        std::ranges::replace(home, b, a);
    }
    std::erase_if(areas, [](const Area& area) { return area.empty(); });
    return areas;
}

/// How far the long axis of an area is turned from ahead towards the right (principal axis of the touched
/// elements); nothing when it is not long, or too short to be a whole foot.
std::optional<double> turn_of(const Area& area, const Grid& grid) {
    const PointM centre = centre_of(area);
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (const Element& one : area) {
        const double x = one.at.x_m - centre.x_m;
        const double y = one.at.y_m - centre.y_m;
        xx += x * x;
        xy += x * y;
        yy += y * y;
    }
    const double middle = 0.5 * (xx + yy);
    const double spread = std::hypot(0.5 * (yy - xx), xy);
    if (!(middle - spread > 0.0) ||
        (middle + spread) < least_elongation * least_elongation * (middle - spread)) {
        return std::nullopt;
    }
    const double turn = 0.5 * std::atan2(2.0 * xy, yy - xx);
    if (std::abs(turn) > most_turn_rad || reach_of(area, turn, grid).length_m() < least_length_m) {
        return std::nullopt;
    }
    return turn;
}

FootOnMat describe(const Area& area, const Grid& grid, double outwards) {
    FootOnMat foot;
    foot.load_n = load_of(area);
    foot.centre = centre_of(area);
    foot.elements = area.size();
    for (const Element& one : area) {
        foot.cop.x_m += one.load_n * one.at.x_m / foot.load_n;
        foot.cop.y_m += one.load_n * one.at.y_m / foot.load_n;
        foot.clipped += one.clipped ? 1 : 0;
        foot.dead += one.filled ? 1 : 0;
    }
    const std::optional<double> turn = turn_of(area, grid);
    const Reach reach = reach_of(area, turn.value_or(0.0), grid);
    foot.length_m = reach.length_m();
    if (!turn) return foot;
    foot.toe_out_rad = outwards * *turn;
    const double middle = 0.5 * (reach.from_m + reach.to_m);
    const double line = across(foot.centre, *turn);
    double toe_n = 0.0;
    double outside_n = 0.0;
    for (const Element& one : area) {
        // An element that the line cuts counts for both sides by its parts, so that nothing jumps.
        toe_n += one.load_n * std::clamp(0.5 + (along(one.at, *turn) - middle) / grid.pitch_y_m, 0.0, 1.0);
        outside_n += one.load_n *
                     std::clamp(0.5 + outwards * (across(one.at, *turn) - line) / grid.pitch_x_m, 0.0, 1.0);
    }
    foot.toe_share = toe_n / foot.load_n;
    foot.outside_share = outside_n / foot.load_n;
    return foot;
}

/// The mean of what touches around a dead element, when enough does.
double filled_in(std::span<const double> force_n, const FeetOptions& options, const Grid& grid,
                 std::size_t row, std::size_t column) {
    double sum = 0.0;
    std::size_t touching = 0;
    std::size_t live = 0;
    for (std::size_t r = row > 0 ? row - 1 : 0; r <= std::min<std::size_t>(row + 1, grid.rows - 1); ++r) {
        for (std::size_t c = column > 0 ? column - 1 : 0;
             c <= std::min<std::size_t>(column + 1, grid.columns - 1); ++c) {
            const std::size_t index = r * grid.columns + c;
            if (options.dead[index] != 0) continue;
            ++live;
            if (force_n[index] > options.element_threshold_n) {
                sum += force_n[index];
                ++touching;
            }
        }
    }
    return touching >= neighbours_to_fill ? sum / static_cast<double>(live) : 0.0;
}

}  // namespace

std::vector<std::uint32_t> label_areas(std::span<const std::uint8_t> touched, std::size_t rows,
                                       std::size_t columns) {
    std::vector<std::uint32_t> labels(rows * columns, 0);
    std::vector<std::size_t> open;
    std::uint32_t next = 0;
    for (std::size_t start = 0; start < labels.size(); ++start) {
        if (touched[start] == 0 || labels[start] != 0) continue;
        labels[start] = ++next;
        open.push_back(start);
        while (!open.empty()) {
            const std::size_t row = open.back() / columns;
            const std::size_t column = open.back() % columns;
            open.pop_back();
            for (std::size_t r = row > 0 ? row - 1 : 0; r <= std::min(row + 1, rows - 1); ++r) {
                for (std::size_t c = column > 0 ? column - 1 : 0; c <= std::min(column + 1, columns - 1);
                     ++c) {
                    const std::size_t index = r * columns + c;
                    if (touched[index] == 0 || labels[index] != 0) continue;
                    labels[index] = next;
                    open.push_back(index);
                }
            }
        }
    }
    return labels;
}

FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n, const FeetOptions& options,
                    double midline_x_m) {
    FeetOnMat feet;
    const std::size_t count = std::size_t{grid.rows} * grid.columns;
    if (count == 0 || force_n.size() != count || !(options.dead.empty() || options.dead.size() == count))
        return feet;
    if (!std::ranges::all_of(force_n, [](double one) { return std::isfinite(one); })) return feet;

    std::vector<double> load_n(force_n.begin(), force_n.end());
    std::vector<std::uint8_t> touched(count, 0);
    for (std::size_t i = 0; i < count; ++i) {
        const bool is_dead = !options.dead.empty() && options.dead[i] != 0;
        if (is_dead) load_n[i] = filled_in(force_n, options, grid, i / grid.columns, i % grid.columns);
        touched[i] = load_n[i] > options.element_threshold_n ? 1 : 0;
    }
    const std::vector<std::uint32_t> labels = label_areas(touched, grid.rows, grid.columns);
    feet.blobs = *std::ranges::max_element(labels);
    std::vector<Area> areas(feet.blobs);
    for (std::size_t i = 0; i < count; ++i) {
        if (labels[i] == 0) continue;
        const bool clipped = options.clip_n && load_n[i] >= *options.clip_n;
        const bool filled = !options.dead.empty() && options.dead[i] != 0;
        areas[labels[i] - 1].push_back(
            {element_position(grid, i / grid.columns, i % grid.columns), load_n[i], clipped, filled});
    }

    // Feet are among the heaviest areas; a mat full of specks shall not take for ever.
    std::ranges::stable_sort(areas, std::greater<>{}, load_of);
    for (std::size_t i = most_areas; i < areas.size(); ++i) feet.other_n += load_of(areas[i]);
    areas.resize(std::min(areas.size(), most_areas));
    areas = joined(parted(std::move(areas), grid, options), grid, options);
    std::ranges::stable_sort(areas, std::greater<>{}, load_of);
    std::size_t found = 0;
    for (std::size_t i = 0; i < areas.size(); ++i) {
        const double load = load_of(areas[i]);
        if (i == found && found < 2 && load > 0.0 && load >= options.least_foot_n) {
            ++found;
        } else {
            feet.other_n += load;
        }
    }
    if (found == 2) {
        const bool first_is_left = centre_of(areas[0]).x_m <= centre_of(areas[1]).x_m;
        feet.left = describe(areas[first_is_left ? 0 : 1], grid, -1.0);
        feet.right = describe(areas[first_is_left ? 1 : 0], grid, 1.0);
        feet.stance_width_m = feet.right->centre.x_m - feet.left->centre.x_m;
    } else if (found == 1) {
        if (centre_of(areas[0]).x_m < midline_x_m) {
            feet.left = describe(areas[0], grid, -1.0);
        } else {
            feet.right = describe(areas[0], grid, 1.0);
        }
    }
    return feet;
}

FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n, const FeetOptions& options) {
    return find_feet(grid, force_n, options, grid.centre.x_m);
}

}  // namespace footing
