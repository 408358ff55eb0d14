#include "acquisition/decode/clock_curve.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

constexpr std::size_t most_points = 1024;
constexpr int huber_rounds = 8;
constexpr int biweight_rounds = 6;
constexpr double huber_limit = 1.345;     ///< 95 % efficient on normal errors
constexpr double biweight_limit = 4.685;  ///< 95 % efficient on normal errors
constexpr double normal_scale = 1.4826;   ///< median absolute deviation to standard deviation
constexpr double least_scale_ns = 1.0;    ///< times are whole nanoseconds

double median_of(std::span<double> values) {
    if (values.empty()) return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace

void ClockCurve::place_knots(std::span<const CurvePoint> points) {
    const std::size_t pieces = std::clamp<std::size_t>(points.size() / points_a_piece, 1, most_knots - 1);
    knots_ = 0;
    for (std::size_t k = 0; k <= pieces; ++k) {
        const double x = points[k * (points.size() - 1) / pieces].x;
        if (knots_ == 0 || x > x_[knots_ - 1]) x_[knots_++] = x;
    }
}

std::size_t ClockCurve::piece_of(double x) const {
    std::size_t piece = 0;
    while (piece + 2 < knots_ && x > x_[piece + 1]) ++piece;
    return piece;
}

/// Hat functions meet only their neighbours: the normal equations are tridiagonal.
void ClockCurve::solve(std::span<const CurvePoint> points, std::span<const double> weights) {
    std::array<double, most_knots> diagonal{};
    std::array<double, most_knots> beside{};
    std::array<double, most_knots> right{};
    std::size_t piece = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        while (piece + 2 < knots_ && points[i].x > x_[piece + 1]) ++piece;
        const double later = (points[i].x - x_[piece]) / (x_[piece + 1] - x_[piece]);
        const double sooner = 1.0 - later;
        diagonal[piece] += weights[i] * sooner * sooner;
        diagonal[piece + 1] += weights[i] * later * later;
        beside[piece] += weights[i] * sooner * later;
        right[piece] += weights[i] * sooner * points[i].y;
        right[piece + 1] += weights[i] * later * points[i].y;
    }
    for (std::size_t k = 0; k + 1 < knots_; ++k) {
        if (diagonal[k] <= 0.0) return;  // nothing left that counts here: the line stays as it was
        const double factor = beside[k] / diagonal[k];
        diagonal[k + 1] -= factor * beside[k];
        right[k + 1] -= factor * right[k];
    }
    if (diagonal[knots_ - 1] <= 0.0) return;
    for (std::size_t k = knots_; k-- > 0;) {
        const double known = k + 1 < knots_ ? beside[k] * y_[k + 1] : 0.0;
        y_[k] = (right[k] - known) / diagonal[k];
    }
}

void ClockCurve::fit(std::span<const CurvePoint> points) {
    points = points.first(std::min(points.size(), most_points));
    residual_ = 0.0;
    knots_ = 0;
    if (points.empty()) return;
    place_knots(points);
    if (knots_ < 2) {
        knots_ = 1;
        y_[0] = points.back().y;
        return;
    }
    std::array<double, most_points> weight_room;
    std::array<double, most_points> apart_room;
    const std::span<double> weights(weight_room.data(), points.size());
    const std::span<double> apart(apart_room.data(), points.size());
    const auto scale = [&] {
        for (std::size_t i = 0; i < points.size(); ++i) apart[i] = std::abs(points[i].y - at(points[i].x));
        return normal_scale * median_of(apart);
    };
    for (std::size_t i = 0; i < points.size(); ++i) weights[i] = points[i].weight;
    solve(points, weights);
    for (int round = 0; round < huber_rounds + biweight_rounds; ++round) {
        const double unit = std::max(scale(), least_scale_ns);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const double off = std::abs(points[i].y - at(points[i].x)) / unit;
            double factor = 0.0;
            if (round < huber_rounds) {
                factor = off <= huber_limit ? 1.0 : huber_limit / off;
            } else if (off < biweight_limit) {
                const double rest = 1.0 - off * off / (biweight_limit * biweight_limit);
                factor = rest * rest;
            }
            weights[i] = points[i].weight * factor;
        }
        solve(points, weights);
    }
    residual_ = scale();
}

double ClockCurve::at(double x) const {
    if (knots_ == 0) return 0.0;
    if (knots_ == 1) return y_[0];
    const std::size_t piece = piece_of(x);
    const double slope = (y_[piece + 1] - y_[piece]) / (x_[piece + 1] - x_[piece]);
    return y_[piece] + slope * (x - x_[piece]);
}

double ClockCurve::mean_slope() const {
    if (knots_ < 2) return 0.0;
    return (y_[knots_ - 1] - y_[0]) / (x_[knots_ - 1] - x_[0]);
}

}  // namespace footing
