#include <cairo.h>
#include <doctest/doctest.h>

#include <cmath>
#include <cstring>
#include <regex>

#include "analysis/report/canvas.h"
#include "analysis/report/svg_painter.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/text_safety.h"
#include "tests/report/figure_shapes.h"
#include "tests/support/child_process.h"
#include "tests/support/lesson_sample.h"

using namespace footing;

namespace {

SwingFigureOptions third_swing() {
    SwingFigureOptions options;
    options.width = 720;
    options.height = 480;
    options.swings = {2};
    return options;
}

struct Reading {
    const std::string* bytes;
    std::size_t at;
};

cairo_status_t read_bytes(void* closure, unsigned char* data, unsigned int length) {
    auto* reading = static_cast<Reading*>(closure);
    if (reading->at + length > reading->bytes->size()) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(data, reading->bytes->data() + reading->at, length);
    reading->at += length;
    return CAIRO_STATUS_SUCCESS;
}

/// A PNG, decoded by Cairo.
class Picture {
  public:
    explicit Picture(const std::string& png) {
        Reading reading{&png, 0};
        surface_ = cairo_image_surface_create_from_png_stream(read_bytes, &reading);
    }
    Picture(const Picture&) = delete;
    Picture& operator=(const Picture&) = delete;
    ~Picture() { cairo_surface_destroy(surface_); }
    [[nodiscard]] Colour at(double x, double y) const {
        const unsigned char* row = cairo_image_surface_get_data(surface_) +
                                   static_cast<int>(y) * cairo_image_surface_get_stride(surface_);
        const unsigned char* pixel = row + 4 * static_cast<int>(x);
        return {pixel[2], pixel[1], pixel[0]};
    }
    [[nodiscard]] int width() const { return cairo_image_surface_get_width(surface_); }

  private:
    cairo_surface_t* surface_;
};

}  // namespace

TEST_CASE("the SVG has every text of the figure where the figure says, and says what it is") {
    const Figure figure = swing_figure(sample::lesson(), third_swing());
    const std::string svg = svg_of(figure, Theme::print, SvgPlace::own_file);
    CHECK(svg.find("role=\"img\"") != std::string::npos);
    CHECK(svg.find("<title>Swing 3, shot</title>") != std::string::npos);
    CHECK(svg.find("<desc>Lead share over time") != std::string::npos);
    const std::regex text_element("<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\"[^>]*>([^<]*)</text>");
    std::vector<std::smatch> found;
    for (auto it = std::sregex_iterator(svg.begin(), svg.end(), text_element); it != std::sregex_iterator();
         ++it) {
        found.push_back(*it);
    }
    const auto texts = shapes::all<FigureText>(figure);
    REQUIRE(found.size() == texts.size());
    for (std::size_t i = 0; i < texts.size(); ++i) {
        CHECK(std::abs(std::stod(found[i][1]) - texts[i].at.x) <= 0.051);
        CHECK(std::abs(std::stod(found[i][2]) - texts[i].at.y) <= 0.051);
        CHECK(found[i][3].str() == escaped(texts[i].text));
    }
}

TEST_CASE("the PDF has its texts where the figure says") {
    const Figure figure = swing_figure(sample::lesson(), third_swing());
    Canvas canvas = Canvas::pdf(figure.width, figure.height, {"figure", "", "2026-05-14T10:20:44Z"});
    canvas.draw(figure, {});
    const auto pdf = canvas.finish();
    REQUIRE(pdf.ok());
    const test::ScratchFolder folder;
    test::write_file(folder / "figure.pdf", pdf.value());
    const auto words = test::run_program({"/usr/bin/pdftotext", "-bbox", folder / "figure.pdf", "-"});
    if (words.exit_code != 0) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    for (const std::string name : {"address", "takeaway", "turnaround", "impact", "finish"}) {
        const auto texts = shapes::texts_with(figure, name);
        REQUIRE(texts.size() == 1);
        const std::regex word("xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"[0-9.]+\" yMax=\"([0-9.]+)\">" +
                              name);
        std::smatch found;
        REQUIRE(std::regex_search(words.out, found, word));
        // 96 px are 72 points; the box of a word begins less than a side bearing from the text's own origin.
        CHECK(std::abs(std::stod(found[1]) * 96.0 / 72.0 - texts[0].at.x) < 1.5);
        CHECK(std::stod(found[2]) * 96.0 / 72.0 < texts[0].at.y);
        CHECK(std::stod(found[3]) * 96.0 / 72.0 > texts[0].at.y);
    }
}

TEST_CASE("the picture has band, mark and ground where the figure says, in the theme's colours") {
    const LessonResult lesson = sample::lesson();
    const SwingFigureOptions options = third_swing();
    const SwingScale scale = swing_figure_scale(lesson, options);
    for (const Theme theme : {Theme::paper, Theme::slate}) {
        const auto png = png_of(swing_figure(lesson, options), theme, 2.0);
        REQUIRE(png.ok());
        const Picture picture(png.value());
        CHECK(picture.width() == 1440);
        CHECK(picture.at(4, 4) == colour_of(Ink::paper, theme));
        const double x = scale.x_of_share(0.78);
        CHECK(picture.at(2 * x, 2 * (scale.feet.top + 6.0)) == colour_of(Ink::band, theme));
        const Swing& swing = lesson.swings[2];
        const double mark_x = scale.x_of_share(swing.lead_share.address->value);
        const double mark_y = scale.y_of(swing.events.address->time_s - scale.zero_s);
        CHECK(picture.at(2 * mark_x, 2 * mark_y) == colour_of(Ink::ink, theme));
    }
}

TEST_CASE("marks keep their meaning without colour: full or hollow, and which way they point") {
    Figure figure;
    figure.width = 40;
    figure.height = 40;
    const auto centre = [&](MarkShape shape) {
        figure.shapes = {FigureMark{{20, 20}, shape, 8, Ink::ink}};
        const auto png = png_of(figure, Theme::print, 1.0);
        return Picture(png.value()).at(20, 20);
    };
    const Colour ink = colour_of(Ink::ink, Theme::print);
    const Colour paper = colour_of(Ink::paper, Theme::print);
    CHECK(centre(MarkShape::diamond) == ink);
    CHECK(centre(MarkShape::diamond_hollow) == paper);
    CHECK(centre(MarkShape::triangle_left) == paper);
    CHECK(centre(MarkShape::triangle_right) == paper);
    figure.shapes = {FigureMark{{20, 20}, MarkShape::triangle_left, 8, Ink::ink}};
    const Picture left(png_of(figure, Theme::print, 1.0).value());
    CHECK(left.at(13, 20) != paper);  // the tip
    CHECK(left.at(13, 14) == paper);
    CHECK(left.at(26, 14) != paper);  // the base
}

TEST_CASE("an area within its own outline is one path of the SVG, filled and stroked") {
    const std::vector<FigurePoint> corners{{4, 4}, {36, 4}, {20, 30}};
    std::vector<FigurePoint> round = corners;
    round.push_back(corners.front());
    Figure figure;
    figure.width = figure.height = 40;
    figure.shapes = {FigureArea{corners, Ink::lead, 0.1}, FigureLine{round, Ink::lead, 1.5}};
    const auto paths = [](const std::string& svg) {
        std::size_t count = 0;
        for (std::size_t at = svg.find("<path"); at != std::string::npos; at = svg.find("<path", at + 1))
            ++count;
        return count;
    };
    const std::string own = svg_of(figure, Theme::print, SvgPlace::own_file);
    CHECK(paths(own) == 1);
    CHECK(own.find(" stroke=\"#") != std::string::npos);
    CHECK(own.find(" fill-opacity=\"0.1\" stroke-width=\"1.5\"") != std::string::npos);
    CHECK(svg_of(figure, Theme::print, SvgPlace::within_html).find("class=\"fl ol\"") != std::string::npos);
    CHECK(svg_style(Theme::print).find(".ol { stroke: #") != std::string::npos);
    // Another line behind it is a path of its own.
    figure.shapes.emplace_back(FigureLine{{{0, 0}, {4, 4}}, Ink::lead, 1.5});
    CHECK(paths(svg_of(figure, Theme::print, SvgPlace::own_file)) == 2);
}
