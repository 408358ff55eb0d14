#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/report/figure_scale.h"

namespace footing {

/// About how wide a text is, px: advances of Inter and DejaVu Sans, the wider of the two for each character,
/// so that what is given room by it has room in either.
[[nodiscard]] double text_width(std::string_view text, TextSize size,
                                TextWeight weight = TextWeight::regular);

/// Puts shapes into a figure, one call each; sizes are px already scaled.
class FigureKit {
  public:
    explicit FigureKit(Figure& figure) : figure_(figure) {}

    void line(FigurePoint from, FigurePoint to, Ink ink, double width, LineStyle style = LineStyle::solid,
              double opacity = 1.0);
    void path(std::vector<FigurePoint> points, Ink ink, double width, LineStyle style = LineStyle::solid,
              double opacity = 1.0);
    void area(const FigureBox& box, Ink fill, double opacity = 1.0);
    void polygon(std::vector<FigurePoint> points, Ink fill, double opacity = 1.0);
    void outline(const FigureBox& box, Ink ink, double width);
    /// A mark with a rim of paper round it, so that it stands off the line it sits on.
    void mark(FigurePoint at, MarkShape shape, double radius, Ink ink);
    void text(FigurePoint at, std::string text, Ink ink = Ink::ink, Align align = Align::left,
              TextSize size = TextSize::small, TextWeight weight = TextWeight::regular);

  private:
    Figure& figure_;
};

/// A label that wants to stand at a height; of two that cannot both have room, the less important goes.
struct Label {
    double wanted_y = 0.0;
    double y = 0.0;       ///< where it stands in the end
    int importance = 0;   ///< larger stays
    std::size_t key = 0;  ///< the caller's own
};

/// Shifts labels apart so that neighbours are at least `spacing` from each other and all stand in [top,
/// bottom], each as near as can be to where it wants to stand; drops the least important while there is no
/// room. In order of height.
[[nodiscard]] std::vector<Label> spread_labels(std::vector<Label> labels, double spacing, double top,
                                               double bottom);

/// For drawing only: of the points that fall on one row of pixels keeps the first, the leftmost, the
/// rightmost and the last. Points go down the picture (y never falls).
[[nodiscard]] std::vector<FigurePoint> thinned_down(const std::vector<FigurePoint>& points);

/// For drawing only: drops points nearer than `distance` px to the last one kept; keeps both ends.
[[nodiscard]] std::vector<FigurePoint> thinned_path(const std::vector<FigurePoint>& points, double distance);

}  // namespace footing
