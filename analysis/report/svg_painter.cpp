#include "analysis/report/svg_painter.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <variant>
#include <vector>

#include "analysis/report/mark_outline.h"
#include "analysis/report/svg_path.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

/// The letter that an ink has in the names of classes.
constexpr std::array<std::pair<Ink, char>, 10> ink_letters{{{Ink::ink, 'k'},
                                                            {Ink::quiet, 'q'},
                                                            {Ink::grid, 'g'},
                                                            {Ink::lead, 'l'},
                                                            {Ink::trail, 't'},
                                                            {Ink::band, 'b'},
                                                            {Ink::band_edge, 'e'},
                                                            {Ink::loss, 'x'},
                                                            {Ink::paper, 'p'},
                                                            {Ink::alarm, 'a'}}};

char letter_of(Ink ink) {
    for (const auto& [one, letter] : ink_letters) {
        if (one == ink) return letter;
    }
    return 'k';
}

std::string colour_words(Ink ink, Theme theme) {
    const Colour colour = colour_of(ink, theme);
    return fmt::format("#{:02X}{:02X}{:02X}", colour.red, colour.green, colour.blue);
}

std::string opacity_words(const char* of, double opacity) {
    return opacity < 1.0 ? fmt::format(" {}-opacity=\"{:.2g}\"", of, opacity) : "";
}

/// How shapes look, as the attributes of their elements: classes within an HTML page, colours elsewhere. What
/// is usual goes without saying; the style sheet and the <svg> element say it.
class Looks {
  public:
    Looks(Theme theme, SvgPlace place, double text_scale)
        : theme_(theme), place_(place), text_scale_(text_scale) {}

    [[nodiscard]] std::string of(const FigureArea& area) const {
        return fill(area.fill) + opacity_words("fill", area.opacity);
    }

    /// An area within its own outline.
    [[nodiscard]] std::string of(const FigureArea& area, const FigureLine& outline) const {
        const std::string look =
            place_ == SvgPlace::within_html
                ? fmt::format(" class=\"f{} o{}\"", letter_of(area.fill), letter_of(outline.ink))
                : fill(area.fill) + fmt::format(" stroke=\"{}\"", colour_words(outline.ink, theme_));
        return look + opacity_words("fill", area.opacity) + width(outline.width);
    }

    [[nodiscard]] std::string of(const FigureLine& line) const {
        return stroke(line.ink) + width(line.width) +
               (line.style == LineStyle::dashed ? " stroke-dasharray=\"4 3\"" : "") +
               opacity_words("stroke", line.opacity);
    }

    [[nodiscard]] std::string of(const FigureMark& mark) const {
        if (mark_fill(mark.shape) == MarkFill::full) return fill(mark.ink);
        if (place_ == SvgPlace::within_html) return fmt::format(" class=\"h{}\"", letter_of(mark.ink));
        return fill(Ink::paper) + fmt::format(" stroke=\"{}\"", colour_words(mark.ink, theme_)) +
               width(mark_outline_px);
    }

    [[nodiscard]] std::string of(const FigureText& text) const {
        const double px = text_px(text.size) * text_scale_;
        const std::string size =
            px == text_px(TextSize::small) ? "" : fmt::format(" font-size=\"{}\"", svg_number(px));
        const bool bold = text.weight == TextWeight::bold;
        if (place_ == SvgPlace::own_file) {
            return (text.ink == Ink::ink ? "" : fill(text.ink)) + size +
                   (text.align == Align::left     ? ""
                    : text.align == Align::middle ? " text-anchor=\"middle\""
                                                  : " text-anchor=\"end\"") +
                   (bold ? " font-weight=\"600\"" : "");
        }
        std::string classes;
        const auto add = [&](const std::string& name) { classes += (classes.empty() ? "" : " ") + name; };
        if (text.ink != Ink::ink) add(fmt::format("f{}", letter_of(text.ink)));
        if (text.align != Align::left) add(text.align == Align::middle ? "m" : "r");
        if (bold) add("b");
        return (classes.empty() ? "" : fmt::format(" class=\"{}\"", classes)) + size;
    }

  private:
    [[nodiscard]] std::string fill(Ink ink) const {
        return place_ == SvgPlace::within_html ? fmt::format(" class=\"f{}\"", letter_of(ink))
                                               : fmt::format(" fill=\"{}\"", colour_words(ink, theme_));
    }
    [[nodiscard]] std::string stroke(Ink ink) const {
        return place_ == SvgPlace::within_html
                   ? fmt::format(" class=\"s{}\"", letter_of(ink))
                   : fmt::format(" fill=\"none\" stroke=\"{}\"", colour_words(ink, theme_));
    }
    [[nodiscard]] static std::string width(double px) {
        return px == 1.0 ? "" : fmt::format(" stroke-width=\"{}\"", svg_number(px));
    }

    Theme theme_;
    SvgPlace place_;
    double text_scale_;
};

/// One shape: how it looks, and its element around that.
struct Element {
    std::string look;
    std::string before;  ///< "<path d=…"
    std::string after;
    std::string path;  ///< of an opaque line: several that look the same are one path
};

class Elements {
  public:
    explicit Elements(const Looks& looks) : looks_(looks) {}

    void operator()(const FigureArea& area) {
        add({looks_.of(area), fmt::format("<path d=\"{}Z\"", svg_path(area.points)), "/>", ""});
        area_before_ = &area;
    }

    void operator()(const FigureLine& line) {
        if (const FigureArea* area = std::exchange(area_before_, nullptr); area && goes_round(line, *area)) {
            all_.back().look = looks_.of(*area, line);
            return;
        }
        const std::string path = svg_path(line.points);
        const std::string look = looks_.of(line);
        // Translucent lines are darker where they cross; those of one path would not be.
        const bool joins = line.opacity >= 1.0;
        if (joins && !all_.empty() && !all_.back().path.empty() && all_.back().look == look) {
            all_.back().path += path;
            return;
        }
        if (joins) {
            add({look, "", "/>", path});
        } else {
            add({look, fmt::format("<path d=\"{}\"", path), "/>", ""});
        }
    }

    void operator()(const FigureMark& mark) {
        area_before_ = nullptr;
        const std::vector<FigurePoint> outline = mark_outline(mark);
        add({looks_.of(mark),
             outline.empty() ? fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", svg_number(mark.at.x),
                                           svg_number(mark.at.y), svg_number(mark.radius))
                             : fmt::format("<path d=\"{}Z\"", svg_path(outline)),
             "/>", ""});
    }

    void operator()(const FigureText& text) {
        area_before_ = nullptr;
        add({looks_.of(text),
             fmt::format("<text x=\"{}\" y=\"{}\"", svg_number(text.at.x), svg_number(text.at.y)),
             ">" + escaped(text.text) + "</text>", ""});
    }

    [[nodiscard]] std::string words() const {
        std::string svg;
        for (std::size_t from = 0; from < all_.size();) {
            std::size_t to = from + 1;
            while (to < all_.size() && all_[to].look == all_[from].look) ++to;
            const bool group = to - from > 1 && !all_[from].look.empty();
            if (group) svg += "<g" + all_[from].look + ">\n";
            for (; from < to; ++from) {
                const Element& one = all_[from];
                svg += one.path.empty() ? one.before : fmt::format("<path d=\"{}\"", one.path);
                svg += (group ? "" : one.look) + one.after + "\n";
            }
            if (group) svg += "</g>\n";
        }
        return svg;
    }

  private:
    void add(Element element) { all_.push_back(std::move(element)); }

    /// Whether an opaque line is the area's outline, back to where it began.
    static bool goes_round(const FigureLine& line, const FigureArea& area) {
        const auto same = [](const FigurePoint& a, const FigurePoint& b) { return a.x == b.x && a.y == b.y; };
        return line.opacity >= 1.0 && line.style == LineStyle::solid &&
               line.points.size() == area.points.size() + 1 &&
               same(line.points.back(), area.points.front()) &&
               std::equal(area.points.begin(), area.points.end(), line.points.begin(), same);
    }

    const Looks& looks_;
    std::vector<Element> all_;
    const FigureArea* area_before_ = nullptr;  ///< the last shape, where it was an area
};

}  // namespace

std::string svg_of(const Figure& figure, Theme theme, SvgPlace place) {
    const Looks looks(theme, place, figure.text_scale);
    Elements elements(looks);
    for (const FigureShape& shape : figure.shapes) std::visit(elements, shape);
    const std::string own =
        place == SvgPlace::within_html
            ? ""
            : fmt::format(
                  " xmlns=\"http://www.w3.org/2000/svg\" stroke-linejoin=\"round\" fill=\"{}\" "
                  "font-size=\"{}\" font-family=\"Inter, Roboto, 'DejaVu Sans', sans-serif\"",
                  colour_words(Ink::ink, theme), svg_number(text_px(TextSize::small)));
    return fmt::format(
        "<svg{} role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {} {}\">\n<title>{}</title>\n<desc>{}</desc>\n"
        "{}</svg>\n",
        own, escaped(figure.title), svg_number(figure.width), svg_number(figure.height),
        escaped(figure.title), escaped(figure.description), elements.words());
}

std::string svg_style(Theme theme) {
    std::string style = fmt::format("svg {{ stroke-linejoin: round; fill: {}; font-size: {}px; }}\n",
                                    colour_words(Ink::ink, theme), svg_number(text_px(TextSize::small)));
    const std::string paper = colour_words(Ink::paper, theme);
    for (const auto& [ink, letter] : ink_letters) {
        const std::string colour = colour_words(ink, theme);
        style += fmt::format(
            ".f{0} {{ fill: {1}; }} .s{0} {{ fill: none; stroke: {1}; }} .o{0} {{ stroke: {1}; }} ", letter,
            colour);
        style += fmt::format(".h{} {{ fill: {}; stroke: {}; stroke-width: {}; }}\n", letter, paper, colour,
                             svg_number(mark_outline_px));
    }
    return style +
           "svg .m { text-anchor: middle; } svg .r { text-anchor: end; } svg .b { font-weight: 600; }\n";
}

}  // namespace footing
