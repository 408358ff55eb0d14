#pragma once

#include <optional>

#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// Share of each foot's load on the toe half of its plate (docs/formulas.md, F37): by moments, (y - y_heel) /
/// (y_toe - y_heel) with y the foot's CoP and y_toe, y_heel the rows of cells before and behind the plate's
/// middle. Absent unless each foot has a plate of its own with at least four cells in two such rows.
[[nodiscard]] std::optional<HeelToe> measure_heel_toe(const LoadTrace& trace, const PlateLayout& layout,
                                                      Hand hand, const SwingEvents& events);

}  // namespace footing
