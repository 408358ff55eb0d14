#pragma once

#include <string>

#include "analysis/report/figure.h"
#include "analysis/report/theme.h"

namespace footing {

/// A file of its own says how each shape looks. Within an HTML page, which may hold hundreds of pictures, the
/// shapes name classes of the style sheet that svg_style() gives, and the page must have it.
enum class SvgPlace { within_html, own_file };

/// A figure as one SVG element, to stand in an HTML page or alone: role="img" with title and description,
/// text as text, no script, nothing fetched. Coordinates to 0.1 px; of long lines without the points that lie
/// within 0.15 px of a straight one. Neighbours that look the same say so once.
[[nodiscard]] std::string svg_of(const Figure& figure, Theme theme, SvgPlace place);

/// The style sheet that pictures within an HTML page need.
[[nodiscard]] std::string svg_style(Theme theme);

}  // namespace footing
