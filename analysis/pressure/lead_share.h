#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"

namespace footing {

/// Lead foot's share of the vertical load, in [0, 1] (docs/formulas.md, F6): lead / (lead + trail). Not known
/// (NaN) when the feet cannot be told apart or together bear less than `load_floor_n`. Noise may push the
/// load of a lifted foot a little below zero; the share is then 0 or 1.
[[nodiscard]] double lead_share(double left_n, double right_n, Hand hand, double load_floor_n = 20.0);
[[nodiscard]] double lead_share(const LoadSample& sample, Hand hand, double load_floor_n = 20.0);
/// Of many instants at once; all of the same length.
void lead_share(std::span<const double> left_n, std::span<const double> right_n, Hand hand,
                std::span<double> share, double load_floor_n = 20.0);
/// Shape: one entry a sampling instant of the trace.
[[nodiscard]] std::vector<double> lead_share(const LoadTrace& trace, Hand hand, double load_floor_n = 20.0);

/// Plate frame -> stance frame: x towards the target. x changes its sign for a right-handed golfer, whose
/// target is to the left.
[[nodiscard]] PointM to_stance_frame(PointM plate_frame, Hand hand);
[[nodiscard]] double stance_x_m(double plate_x_m, Hand hand);

}  // namespace footing
