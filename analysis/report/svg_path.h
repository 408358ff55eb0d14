#pragma once

#include <string>
#include <vector>

#include "analysis/report/figure.h"

namespace footing {

/// A coordinate to 0.1 px, as short as it can be written: "12.5", "-.3", "7".
[[nodiscard]] std::string svg_number(double px);

/// The points as the data of an SVG path, each from the one before; of long lines without the points that no
/// eye would miss.
[[nodiscard]] std::string svg_path(const std::vector<FigurePoint>& points);

}  // namespace footing
