#pragma once

#include <vector>

#include "analysis/report/figure.h"

namespace footing {

/// Corners of a mark's shape, px; empty for dot and ring, which are circles of the mark's radius. All
/// painters draw from these, so that a mark is the same everywhere.
[[nodiscard]] std::vector<FigurePoint> mark_outline(const FigureMark& mark);

inline constexpr double mark_outline_px = 1.5;

/// Whether the shape is filled, or an outline filled with paper.
enum class MarkFill { full, hollow };
[[nodiscard]] MarkFill mark_fill(MarkShape shape);

}  // namespace footing
