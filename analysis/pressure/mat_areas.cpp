#include "analysis/pressure/mat_areas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <numeric>

namespace footing {

namespace {

constexpr double most_turn_rad = std::numbers::pi / 4.0;
// The toes of one foot and the heel of the other lie further off ahead than heel and toes of a foot that is
// turned out as far as golfers do. Parts nearer than this may lie in any direction: toes beside each other.
constexpr double most_turn_between_parts_rad = std::numbers::pi * 38.0 / 180.0;
constexpr double near_parts_m = 0.08;
constexpr int turns = 19;  // 5 degrees apart
constexpr std::size_t neighbours_to_fill = 3;
constexpr std::size_t most_areas = 32;

/// Straight ahead first, then further and further out: most feet fit early.
std::vector<Heading> headings() {
    std::vector<Heading> all{Heading(0.0)};
    for (int i = 1; i <= turns / 2; ++i) {
        const double turn = most_turn_rad * (2.0 * i / (turns - 1));
        all.emplace_back(turn);
        all.emplace_back(-turn);
    }
    return all;
}

/// The smallest box round an area that stands straight.
struct Box {
    double left_m = std::numeric_limits<double>::infinity();
    double right_m = -std::numeric_limits<double>::infinity();
    double near_m = std::numeric_limits<double>::infinity();
    double far_m = -std::numeric_limits<double>::infinity();
};

Box box_of(const MatArea& area) {
    Box box;
    for (const MatElement& one : area) {
        box.left_m = std::min(box.left_m, one.at.x_m);
        box.right_m = std::max(box.right_m, one.at.x_m);
        box.near_m = std::min(box.near_m, one.at.y_m);
        box.far_m = std::max(box.far_m, one.at.y_m);
    }
    return box;
}

/// Between the boxes round two areas.
double distance(const Box& a, const Box& b) {
    return std::hypot(std::max({0.0, b.left_m - a.right_m, a.left_m - b.right_m}),
                      std::max({0.0, b.near_m - a.far_m, a.near_m - b.far_m}));
}

/// Two feet that touch: parts an area at the column that bears least between the middles of its two halves.
std::pair<MatArea, MatArea> part_in_two(const MatArea& area, const Grid& grid) {
    const PointM centre = centre_of(area);
    double left_x = 0.0;
    double right_x = 0.0;
    double left_n = 0.0;
    double right_n = 0.0;
    for (const MatElement& one : area) {
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
            for (const MatElement& one : area) {
                if (std::abs(one.at.x_m - x) < 0.5 * grid.pitch_x_m) load += one.load_n;
            }
            const bool nearer = std::abs(x - centre.x_m) < std::abs(best_x - centre.x_m);
            if (load < least || (load == least && nearer)) {
                least = load;
                best_x = x;
            }
        }
    }
    std::pair<MatArea, MatArea> parts;
    for (const MatElement& one : area) (one.at.x_m < best_x ? parts.first : parts.second).push_back(one);
    return parts;
}

/// Each connected area; those wider than a foot in two.
std::vector<MatArea> parted(std::vector<MatArea> areas, const Grid& grid, const FeetOptions& options) {
    std::vector<MatArea> result;
    for (MatArea& area : areas) {
        const Reach level = reach_of(area, Heading(0.0), grid);
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
bool in_line(const MatArea& a, const MatArea& b) {
    const PointM from = centre_of(a);
    const PointM to = centre_of(b);
    const double x = std::abs(to.x_m - from.x_m);
    const double y = std::abs(to.y_m - from.y_m);
    return std::hypot(x, y) < near_parts_m || std::atan2(x, y) <= most_turn_between_parts_rad;
}

/// Joins the nearest areas first, as long as they make one foot.
std::vector<MatArea> joined(std::vector<MatArea> areas, const Grid& grid, const FeetOptions& options) {
    struct Pair {
        double distance_m;
        std::size_t one;
        std::size_t other;
    };
    std::vector<Box> boxes(areas.size());
    std::ranges::transform(areas, boxes.begin(), box_of);
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < areas.size(); ++i) {
        for (std::size_t k = i + 1; k < areas.size(); ++k) {
            const double apart = distance(boxes[i], boxes[k]);
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
        MatArea both = areas[a];
        both.insert(both.end(), areas[b].begin(), areas[b].end());
        if (!fits_a_foot(both, grid, options)) continue;
        areas[a] = std::move(both);
        areas[b].clear();
        std::ranges::replace(home, b, a);
    }
    std::erase_if(areas, [](const MatArea& area) { return area.empty(); });
    return areas;
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

double load_of(const MatArea& area) {
    return std::accumulate(area.begin(), area.end(), 0.0,
                           [](double sum, const MatElement& one) { return sum + one.load_n; });
}

PointM centre_of(const MatArea& area) {
    PointM sum;
    for (const MatElement& one : area) {
        sum.x_m += one.at.x_m;
        sum.y_m += one.at.y_m;
    }
    const auto count = static_cast<double>(area.size());
    return {sum.x_m / count, sum.y_m / count};
}

Heading::Heading(double turn_rad) : sine_(std::sin(turn_rad)), cosine_(std::cos(turn_rad)) {}

Reach reach_of(const MatArea& area, const Heading& heading, const Grid& grid) {
    double from = std::numeric_limits<double>::infinity();
    double to = -from;
    double low = from;
    double high = -from;
    for (const MatElement& one : area) {
        const double along = heading.along(one.at);
        const double across = heading.across(one.at);
        from = std::min(from, along);
        to = std::max(to, along);
        low = std::min(low, across);
        high = std::max(high, across);
    }
    return {from - 0.5 * grid.pitch_y_m, to + 0.5 * grid.pitch_y_m, high - low + grid.pitch_x_m};
}

bool fits_a_foot(const MatArea& area, const Grid& grid, const FeetOptions& options) {
    static const std::vector<Heading> directions = headings();
    return std::ranges::any_of(directions, [&](const Heading& heading) {
        const Reach reach = reach_of(area, heading, grid);
        return reach.width_m <= options.most_width_m && reach.length_m() <= options.most_length_m;
    });
}

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

void fill_dead(const Grid& grid, const FeetOptions& options, std::span<double> force_n) {
    if (options.dead.size() != force_n.size()) return;
    // What a dead element says counts for nothing, also while others are being filled.
    for (std::size_t i = 0; i < force_n.size(); ++i) {
        if (options.dead[i] != 0)
            force_n[i] = filled_in(force_n, options, grid, i / grid.columns, i % grid.columns);
    }
}

MatAreas find_areas(const Grid& grid, std::span<const double> force_n, const FeetOptions& options) {
    MatAreas found;
    std::vector<std::uint8_t> touched(force_n.size(), 0);
    for (std::size_t i = 0; i < force_n.size(); ++i)
        touched[i] = force_n[i] > options.element_threshold_n ? 1 : 0;
    const std::vector<std::uint32_t> labels = label_areas(touched, grid.rows, grid.columns);
    found.areas.resize(labels.empty() ? 0 : *std::ranges::max_element(labels));
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (labels[i] == 0) continue;
        found.areas[labels[i] - 1].push_back({element_position(grid, i / grid.columns, i % grid.columns),
                                              force_n[i], static_cast<std::uint32_t>(i)});
    }
    // Feet are among the heaviest areas; a mat full of specks shall not take for ever.
    std::ranges::stable_sort(found.areas, std::greater<>{}, load_of);
    for (std::size_t i = most_areas; i < found.areas.size(); ++i) found.other_n += load_of(found.areas[i]);
    found.areas.resize(std::min(found.areas.size(), most_areas));
    found.areas = joined(parted(std::move(found.areas), grid, options), grid, options);
    std::ranges::stable_sort(found.areas, std::greater<>{}, load_of);
    return found;
}

}  // namespace footing
