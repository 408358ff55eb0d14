#pragma once

#include <string>
#include <vector>

#include "analysis/report/figure.h"

/// Looks into a figure, for tests.
namespace footing::shapes {

template <typename Shape>
std::vector<Shape> all(const Figure& figure) {
    std::vector<Shape> found;
    for (const FigureShape& shape : figure.shapes) {
        if (const auto* one = std::get_if<Shape>(&shape)) found.push_back(*one);
    }
    return found;
}

inline std::vector<FigureText> texts_with(const Figure& figure, const std::string& text) {
    std::vector<FigureText> found;
    for (const FigureText& one : all<FigureText>(figure)) {
        if (one.text == text) found.push_back(one);
    }
    return found;
}

/// The line of the swing looked at: solid and dashed runs in lead ink.
inline std::vector<FigurePoint> trace(const Figure& figure) {
    std::vector<FigurePoint> points;
    for (const FigureLine& line : all<FigureLine>(figure)) {
        if (line.ink == Ink::lead && line.width == 2.0)
            points.insert(points.end(), line.points.begin(), line.points.end());
    }
    return points;
}

inline FigureArea band(const Figure& figure) {
    for (const FigureArea& area : all<FigureArea>(figure)) {
        if (area.fill == Ink::band) return area;
    }
    return {};
}

}  // namespace footing::shapes
