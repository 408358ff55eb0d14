#pragma once

#include <cstddef>
#include <optional>

#include "analysis/pressure/mat_areas.h"

namespace footing {

/// Which foot: the outer side of the left one is to the left.
enum class FootSide { left, right };

/// How a foot stands: the line from its heel to its toes, and what is before and beside it.
struct FootShape {
    PointM centre;  ///< of the touched area, each element counting alike
    /// How far the line is turned from ahead towards the right; absent when only heel or forefoot touch, so
    /// that the line cannot be seen.
    std::optional<double> turn_rad;
    double length_m = 0.0;  ///< along the line, or ahead
    double middle_m = 0.0;  ///< of the length, along the line from the origin of the plate frame
};

/// Of the touched area of a foot: its principal axis, each element counting alike. The area is not empty.
[[nodiscard]] FootShape foot_shape(const MatArea& area, const Grid& grid);

/// The line of a foot, to part its load into toes and heel, outer and inner side.
class FootLine {
  public:
    /// The shape's line is known.
    FootLine(const FootShape& shape, FootSide side, const Grid& grid);
    /// How much of an element at `at` counts for the toes' half of the foot, 0 to 1; an element that the
    /// middle cuts counts by its part, so that nothing jumps.
    [[nodiscard]] double toe_part(PointM at) const;
    /// The same for the outer side of the line.
    [[nodiscard]] double outside_part(PointM at) const;

  private:
    Heading heading_;
    double middle_m_;
    double line_m_;
    double outwards_;
    double pitch_x_m_;
    double pitch_y_m_;
};

/// By how much the toes point outwards: to the left for the left foot.
[[nodiscard]] std::optional<double> toe_out_rad(const FootShape& shape, FootSide side);

}  // namespace footing
