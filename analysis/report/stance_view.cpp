#include "analysis/report/stance_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/report/drawn_sample.h"
#include "analysis/report/swing_parts.h"

namespace footing {

namespace {

constexpr double default_half_stance_m = 0.18;
constexpr double least_stance_m = 0.02;  ///< nearer feet stand on each other: their places are not known

// A right sole, toes ahead, from the heel over the outer edge to the toes and back, in sole lengths.
constexpr std::array<PointM, 16> right_sole{{{0.000, -0.500},
                                             {0.095, -0.465},
                                             {0.135, -0.350},
                                             {0.138, -0.150},
                                             {0.165, 0.060},
                                             {0.188, 0.230},
                                             {0.160, 0.380},
                                             {0.070, 0.475},
                                             {-0.040, 0.500},
                                             {-0.130, 0.450},
                                             {-0.172, 0.330},
                                             {-0.165, 0.190},
                                             {-0.118, 0.030},
                                             {-0.092, -0.130},
                                             {-0.108, -0.320},
                                             {-0.092, -0.455}}};

/// A closed curve through all points, four steps a piece (Catmull-Rom, uniform).
std::vector<PointM> rounded(const std::vector<PointM>& corners) {
    constexpr int steps = 4;
    std::vector<PointM> curve;
    const std::size_t n = corners.size();
    for (std::size_t i = 0; i < n; ++i) {
        const PointM& a = corners[(i + n - 1) % n];
        const PointM& b = corners[i];
        const PointM& c = corners[(i + 1) % n];
        const PointM& d = corners[(i + 2) % n];
        for (int step = 0; step < steps; ++step) {
            const double t = static_cast<double>(step) / steps;
            const auto blend = [t](double p, double q, double r, double s) {
                return 0.5 * (2.0 * q + (r - p) * t + (2.0 * p - 5.0 * q + 4.0 * r - s) * t * t +
                              (3.0 * q - p - 3.0 * r + s) * t * t * t);
            };
            curve.push_back({blend(a.x_m, b.x_m, c.x_m, d.x_m), blend(a.y_m, b.y_m, c.y_m, d.y_m)});
        }
    }
    return curve;
}

std::optional<PointM> mean_of(const std::vector<double>& x_m, const std::vector<double>& y_m,
                              std::size_t from, std::size_t to) {
    double sum_x = 0.0;
    double sum_y = 0.0;
    std::size_t count = 0;
    for (std::size_t i = from; i < std::min({to, x_m.size(), y_m.size()}); ++i) {
        if (!known(x_m[i]) || !known(y_m[i])) continue;
        sum_x += x_m[i];
        sum_y += y_m[i];
        ++count;
    }
    if (count == 0) return std::nullopt;
    return PointM{sum_x / static_cast<double>(count), sum_y / static_cast<double>(count)};
}

std::optional<PointM> plate_centre(const PlateLayout& layout, PlateSide side) {
    const std::vector<PlateSide> sides = plate_sides(layout);
    for (std::size_t i = 0; i < sides.size(); ++i) {
        if (sides[i] == side) return layout.plates[i].centre;
    }
    return std::nullopt;
}

}  // namespace

FeetOnGround feet_on_ground(const LessonResult& lesson, const Swing* swing) {
    const LoadTrace& trace = lesson.trace;
    const std::size_t from = swing != nullptr ? sample_from(trace, swing->from_s) : 0;
    const std::size_t to = swing != nullptr ? sample_from(trace, swing->to_s) : trace.size();
    FeetOnGround feet;
    feet.told_apart = has_shares(lesson);
    const auto choose = [&](PlateSide side, const std::vector<double>& x_m, const std::vector<double>& y_m,
                            double default_x) {
        if (const auto mean = mean_of(x_m, y_m, from, to)) return *mean;
        if (const auto centre = plate_centre(lesson.facts.layout, side)) return *centre;
        return PointM{default_x, 0.0};
    };
    feet.left = choose(PlateSide::left, trace.left_x_m, trace.left_y_m, -default_half_stance_m);
    feet.right = choose(PlateSide::right, trace.right_x_m, trace.right_y_m, default_half_stance_m);
    if (swing != nullptr && swing->stance) {
        feet.left_toe_out_rad = swing->stance->left_toe_out_rad.value_or(usual_toe_out_rad);
        feet.right_toe_out_rad = swing->stance->right_toe_out_rad.value_or(usual_toe_out_rad);
    }
    if (feet.told_apart && feet.right.x_m - feet.left.x_m < least_stance_m) {
        // Nothing says where the feet stand: a table without centres of pressure.
        feet.left = {-default_half_stance_m, 0.0};
        feet.right = {default_half_stance_m, 0.0};
    }
    return feet;
}

PointM cop_mean(const LessonResult& lesson, const Swing* swing) {
    const LoadTrace& trace = lesson.trace;
    const std::size_t from = swing != nullptr ? sample_from(trace, swing->from_s) : 0;
    const std::size_t to = swing != nullptr ? sample_from(trace, swing->to_s) : trace.size();
    return mean_of(trace.cop_x_m, trace.cop_y_m, from, to).value_or(PointM{});
}

FigurePoint GroundView::operator()(const PointM& point) const {
    const double turn = toes_down ? 1.0 : -1.0;
    return {at.x - turn * (point.x_m - middle.x_m) * px_per_m_x,
            at.y + turn * (point.y_m - middle.y_m) * px_per_m_y};
}

bool toes_point_down(Hand hand, TargetSide target_side) {
    return (hand == Hand::right) == (target_side == TargetSide::right);
}

std::vector<PointM> sole_outline(PlateSide side, double toe_out_rad) {
    const double mirror = side == PlateSide::left ? -1.0 : 1.0;
    const double turn = -mirror * toe_out_rad;  // a right foot's toes turn to the right
    std::vector<PointM> corners;
    for (const PointM& corner : right_sole) {
        const double x = mirror * corner.x_m * sole_length_m;
        const double y = corner.y_m * sole_length_m;
        corners.push_back({x * std::cos(turn) - y * std::sin(turn), x * std::sin(turn) + y * std::cos(turn)});
    }
    return rounded(corners);
}

std::vector<std::vector<PointM>> cop_path(const LoadTrace& trace, double from_s, double to_s) {
    std::vector<std::vector<PointM>> runs;
    bool broken = true;
    const std::size_t end = sample_from(trace, to_s);
    for (std::size_t i = sample_from(trace, from_s); i < end; ++i) {
        const auto cop = drawn_cop(trace, i);
        if (!cop) {
            broken = true;
            continue;
        }
        if (broken) runs.emplace_back();
        runs.back().push_back(*cop);
        broken = false;
    }
    return runs;
}

std::optional<PointM> cop_at(const LoadTrace& trace, double time_s) {
    return drawn_cop(trace, sample_from(trace, time_s));
}

PointM stance_to_plate(const PointM& point, Hand hand) {
    return {hand == Hand::right ? -point.x_m : point.x_m, point.y_m};
}

}  // namespace footing
