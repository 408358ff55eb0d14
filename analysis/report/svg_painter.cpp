#include "analysis/report/svg_painter.h"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

#include "analysis/report/mark_outline.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

class SvgPainter {
  public:
    explicit SvgPainter(Theme theme, double text_scale) : theme_(theme), text_scale_(text_scale) {}

    void operator()(const FigureArea& area) {
        put("<path d=\"{}Z\" fill=\"{}\"{}/>", path_of(area.points), colour(area.fill),
            area.opacity < 1.0 ? fmt::format(" fill-opacity=\"{}\"", number(area.opacity)) : "");
    }

    void operator()(const FigureLine& line) {
        put("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"{}{}/>", path_of(line.points),
            colour(line.ink), number(line.width),
            line.style == LineStyle::dashed ? " stroke-dasharray=\"4 3\"" : "",
            line.opacity < 1.0 ? fmt::format(" stroke-opacity=\"{}\"", number(line.opacity)) : "");
    }

    void operator()(const FigureMark& mark) {
        const std::string ink = colour(mark.ink);
        const std::string look = mark_fill(mark.shape) == MarkFill::full
                                     ? fmt::format("fill=\"{}\"", ink)
                                     : fmt::format("fill=\"{}\" stroke=\"{}\" stroke-width=\"{}\"",
                                                   colour(Ink::paper), ink, number(mark_outline_px));
        const std::vector<FigurePoint> outline = mark_outline(mark);
        if (outline.empty()) {
            put("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" {}/>", number(mark.at.x), number(mark.at.y),
                number(mark.radius), look);
        } else {
            put("<path d=\"{}Z\" {}/>", path_of(outline), look);
        }
    }

    void operator()(const FigureText& text) {
        const char* anchor = text.align == Align::left     ? ""
                             : text.align == Align::middle ? " text-anchor=\"middle\""
                                                           : " text-anchor=\"end\"";
        put("<text x=\"{}\" y=\"{}\" fill=\"{}\" font-size=\"{}\"{}{}>{}</text>", number(text.at.x),
            number(text.at.y), colour(text.ink), number(text_px(text.size) * text_scale_), anchor,
            text.weight == TextWeight::bold ? " font-weight=\"600\"" : "", escaped(text.text));
    }

    std::string take() { return std::move(svg_); }

  private:
    template <typename... Arguments>
    void put(fmt::format_string<Arguments...> pattern, Arguments&&... arguments) {
        fmt::format_to(std::back_inserter(svg_), pattern, std::forward<Arguments>(arguments)...);
        svg_ += '\n';
    }

    static std::string number(double value) {
        const double rounded = std::round(value * 100.0) / 100.0;
        return fmt::format("{}", rounded == 0.0 ? 0.0 : rounded);
    }

    static std::string path_of(const std::vector<FigurePoint>& points) {
        std::string path;
        for (const FigurePoint& point : fewer(points)) {
            path += (path.empty() ? "M" : "L") + number(point.x) + " " + number(point.y);
        }
        return path;
    }

    /// Whether what lies between two points keeps within `near_px` of the straight line between them.
    static bool straight(const std::vector<FigurePoint>& points, std::size_t from, std::size_t to) {
        constexpr double near_px = 0.15;
        const double along_x = points[to].x - points[from].x;
        const double along_y = points[to].y - points[from].y;
        const double length = std::hypot(along_x, along_y);
        for (std::size_t i = from + 1; i < to; ++i) {
            const double x = points[i].x - points[from].x;
            const double y = points[i].y - points[from].y;
            const double along = length > 0.0 ? (x * along_x + y * along_y) / length : 0.0;
            const double off = length > 0.0 ? std::abs(x * along_y - y * along_x) / length : std::hypot(x, y);
            if (off > near_px || along < -near_px || along > length + near_px) return false;
        }
        return true;
    }

    /// For drawing only: leaves out points that no eye would miss, since a page holds a hundred pictures.
    static std::vector<FigurePoint> fewer(const std::vector<FigurePoint>& points) {
        constexpr std::size_t few = 8;
        constexpr std::size_t longest = 48;
        if (points.size() <= few) return points;
        std::vector<FigurePoint> kept{points.front()};
        for (std::size_t at = 0; at + 1 < points.size();) {
            std::size_t next = at + 1;
            while (next + 1 < points.size() && next - at < longest && straight(points, at, next + 1)) ++next;
            kept.push_back(points[next]);
            at = next;
        }
        return kept;
    }

    [[nodiscard]] std::string colour(Ink ink) const {
        const Colour colour = colour_of(ink, theme_);
        return fmt::format("#{:02X}{:02X}{:02X}", colour.red, colour.green, colour.blue);
    }

    Theme theme_;
    double text_scale_;
    std::string svg_;
};

}  // namespace

std::string svg_of(const Figure& figure, Theme theme, SvgPlace place) {
    SvgPainter painter(theme, figure.text_scale);
    for (const FigureShape& shape : figure.shapes) std::visit(painter, shape);
    return fmt::format(
        "<svg{5} role=\"img\" aria-label=\"{0}\" viewBox=\"0 0 {2} {3}\" stroke-linejoin=\"round\" "
        "font-family=\"Inter, Roboto, 'DejaVu Sans', "
        "sans-serif\">\n<title>{0}</title>\n<desc>{1}</desc>\n{4}</svg>\n",
        escaped(figure.title), escaped(figure.description), figure.width, figure.height, painter.take(),
        place == SvgPlace::own_file ? " xmlns=\"http://www.w3.org/2000/svg\"" : "");
}

}  // namespace footing
