#pragma once

#include <string>

#include "analysis/report/figure.h"
#include "analysis/report/theme.h"

namespace footing {

/// An SVG file needs its namespace written out; within an HTML page it is known.
enum class SvgPlace { within_html, own_file };

/// A figure as one SVG element, to stand in an HTML page or alone: role="img" with title and description,
/// text as text, no style sheet, no script, nothing fetched. Coordinates to 0.01 px; of
/// long lines without the points that lie within 0.15 px of a straight one.
[[nodiscard]] std::string svg_of(const Figure& figure, Theme theme, SvgPlace place);

}  // namespace footing
