#pragma once

#include <string>
#include <variant>
#include <vector>

namespace footing {

/// A chart as plain data, in px of 1/96 inch, origin at the top left, y down. Painters (window, SVG, PDF)
/// only draw what stands here, so that screen and paper cannot disagree. Colours are named by what they mean;
/// a painter's theme says how they look.

enum class Ink {
    ink,        ///< text and outlines
    quiet,      ///< secondary text
    grid,       ///< barely there
    lead,       ///< the lead foot, the line of a swing towards it
    trail,      ///< the trail foot
    band,       ///< the target band's tint
    band_edge,  ///< its thin edges
    loss,       ///< where frames were lost
    paper,      ///< the ground itself
    alarm,      ///< the window only: what is recorded is in danger; never without a word and a shape
};

enum class TextSize { small, text, heading, figure };  ///< 13, 16, 22, 88 px
enum class TextWeight { regular, bold };
enum class Align { left, middle, right };

struct FigurePoint {
    double x = 0.0;
    double y = 0.0;
};

enum class LineStyle { solid, dashed };

struct FigureLine {
    std::vector<FigurePoint> points;  ///< an open polyline
    Ink ink = Ink::ink;
    double width = 1.5;
    LineStyle style = LineStyle::solid;
    double opacity = 1.0;
};

struct FigureArea {
    std::vector<FigurePoint> points;  ///< a closed polygon
    Ink fill = Ink::band;
    double opacity = 1.0;
};

/// Marks that tell a verdict by shape first: inside, below, above, too close to call; and the plain event
/// dot.
enum class MarkShape { dot, ring, diamond, triangle_left, triangle_right, diamond_hollow };

struct FigureMark {
    FigurePoint at;
    MarkShape shape = MarkShape::dot;
    double radius = 4.0;
    Ink ink = Ink::ink;
};

struct FigureText {
    FigurePoint at;  ///< on the baseline
    std::string text;
    TextSize size = TextSize::text;
    TextWeight weight = TextWeight::regular;
    Align align = Align::left;
    Ink ink = Ink::ink;
};

using FigureShape = std::variant<FigureArea, FigureLine, FigureMark, FigureText>;

struct Figure {
    double width = 0.0;
    double height = 0.0;
    double text_scale = 1.0;          ///< painters multiply every text size by it
    std::vector<FigureShape> shapes;  ///< in the order of painting
    std::string title;                ///< for screen readers: what it is
    std::string description;          ///< for screen readers: what it shows, in a sentence
};

/// Height of a text size in px.
[[nodiscard]] double text_px(TextSize size);

}  // namespace footing
