#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "analysis/report/svg_painter.h"
#include "analysis/report/svg_path.h"
#include "tests/support/child_process.h"

using namespace footing;

TEST_CASE("a path goes from point to point in tenths, as short as it can be written") {
    CHECK(svg_number(12.34) == "12.3");
    CHECK(svg_number(-0.3) == "-.3");
    CHECK(svg_number(-0.04) == "0");
    CHECK(svg_number(7.0) == "7");
    CHECK(svg_path({{1.0, 2.0}, {4.0, 2.0}, {4.0, -3.5}, {5.25, 1.0}}) == "M1 2h3v-5.5l1.3 4.5");
    CHECK(svg_path({{0.0, 0.0}, {1.0, 1.0}, {2.0, -0.5}}) == "M0 0l1 1 1-1.5");
    CHECK(svg_path({{1.0, 1.0}, {1.01, 1.01}, {1.02, 3.0}}) == "M1 1v2");
}

TEST_CASE("rounding does not add up along a path") {
    std::vector<FigurePoint> points;
    for (int i = 0; i <= 1000; ++i)
        points.push_back({0.333 * i, 100.0 + 30.0 * std::sin(0.7 * i)});  // bends at every point
    // SVG 2, 9.3.4: "l" takes pairs of steps from the place before.
    const auto read =
        test::run_program({"/usr/bin/python3", "-c",
                           "import re,sys\n"
                           "x=y=0.0\n"
                           "for word in re.findall('[Mlhv][^Mlhv]*',sys.argv[1]):\n"
                           "    n=[float(v) for v in re.findall('-?[0-9]*[.]?[0-9]+',word[1:])]\n"
                           "    if word[0]=='M': x,y=n\n"
                           "    for i in range(0,len(n),2 if word[0]=='l' else 1) if word[0]!='M' else []:\n"
                           "        if word[0]=='l': x+=n[i]; y+=n[i+1]\n"
                           "        if word[0]=='h': x+=n[i]\n"
                           "        if word[0]=='v': y+=n[i]\n"
                           "print('%.1f %.1f'%(x,y))\n",
                           svg_path(points)});
    if (read.exit_code == 127) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    CHECK(std::abs(std::stod(read.out) - points.back().x) <= 0.0501);
    CHECK(std::abs(std::stod(read.out.substr(read.out.find(' '))) - points.back().y) <= 0.0501);
}

TEST_CASE("neighbours that look alike say so once; translucent lines stay lines of their own") {
    Figure figure;
    figure.width = 40.0;
    figure.height = 40.0;
    figure.title = "lines";
    for (const double y : {1.0, 2.0, 3.0})
        figure.shapes.push_back(FigureLine{{{0, y}, {9, y}}, Ink::grid, 1.0});
    const auto times = [](const std::string& text, const std::string& part) {
        std::size_t count = 0;
        for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
        return count;
    };
    const std::string opaque = svg_of(figure, Theme::print, SvgPlace::within_html);
    CHECK(opaque.find("<path d=\"M0 1h9M0 2h9M0 3h9\" class=\"sg\"/>") != std::string::npos);
    for (FigureShape& shape : figure.shapes) std::get<FigureLine>(shape).opacity = 0.5;
    const std::string translucent = svg_of(figure, Theme::print, SvgPlace::within_html);
    CHECK(times(translucent, "<path") == 3);
    CHECK(times(translucent, "stroke-opacity=\"0.5\"") == 1);
    // A file of its own needs no style sheet; a page has every class that its pictures name.
    const std::string own = svg_of(figure, Theme::print, SvgPlace::own_file);
    CHECK(own.find("class=") == std::string::npos);
    CHECK(times(own, "stroke=\"#") == 1);
    CHECK(svg_style(Theme::print).find(".sg { fill: none; stroke: ") != std::string::npos);
}
