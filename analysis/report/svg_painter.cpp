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
        put("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"{}{}/>",
            path_of(line.points), colour(line.ink), number(line.width),
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
        for (const FigurePoint& point : points) {
            path += (path.empty() ? "M" : "L") + number(point.x) + " " + number(point.y);
        }
        return path;
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
        "<svg{5} role=\"img\" aria-label=\"{0}\" viewBox=\"0 0 {2} {3}\" "
        "font-family=\"Inter, Roboto, 'DejaVu Sans', "
        "sans-serif\">\n<title>{0}</title>\n<desc>{1}</desc>\n{4}</svg>\n",
        escaped(figure.title), escaped(figure.description), figure.width, figure.height, painter.take(),
        place == SvgPlace::own_file ? " xmlns=\"http://www.w3.org/2000/svg\"" : "");
}

}  // namespace footing
