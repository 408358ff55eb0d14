#include "analysis/pressure/foot_shape.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace footing {

namespace {

constexpr double most_turn_rad = std::numbers::pi / 4.0;
constexpr double least_length_m = 0.15;   // shorter, and only a part of the foot touches
constexpr double least_elongation = 1.5;  // of the touched area, as a ratio of standard deviations

double outwards(FootSide side) {
    return side == FootSide::left ? -1.0 : 1.0;
}

/// How far the long axis of an area is turned from ahead towards the right (principal axis of the touched
/// elements); nothing when it is not long, or too short to be a whole foot.
std::optional<double> turn_of(const MatArea& area, const Grid& grid) {
    const PointM centre = centre_of(area);
    double xx = 0.0;
    double xy = 0.0;
    double yy = 0.0;
    for (const MatElement& one : area) {
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
    if (std::abs(turn) > most_turn_rad || reach_of(area, Heading(turn), grid).length_m() < least_length_m) {
        return std::nullopt;
    }
    return turn;
}

}  // namespace

FootShape foot_shape(const MatArea& area, const Grid& grid) {
    FootShape shape;
    shape.centre = centre_of(area);
    shape.turn_rad = turn_of(area, grid);
    const Reach reach = reach_of(area, Heading(shape.turn_rad.value_or(0.0)), grid);
    shape.length_m = reach.length_m();
    shape.middle_m = 0.5 * (reach.from_m + reach.to_m);
    return shape;
}

FootLine::FootLine(const FootShape& shape, FootSide side, const Grid& grid)
    : heading_(*shape.turn_rad),
      middle_m_(shape.middle_m),
      line_m_(heading_.across(shape.centre)),
      outwards_(outwards(side)),
      pitch_x_m_(grid.pitch_x_m),
      pitch_y_m_(grid.pitch_y_m) {}

double FootLine::toe_part(PointM at) const {
    return std::clamp(0.5 + (heading_.along(at) - middle_m_) / pitch_y_m_, 0.0, 1.0);
}

double FootLine::outside_part(PointM at) const {
    return std::clamp(0.5 + outwards_ * (heading_.across(at) - line_m_) / pitch_x_m_, 0.0, 1.0);
}

std::optional<double> toe_out_rad(const FootShape& shape, FootSide side) {
    if (!shape.turn_rad) return std::nullopt;
    return outwards(side) * *shape.turn_rad;
}

}  // namespace footing
