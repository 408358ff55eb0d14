#include "analysis/report/figure_kit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <utility>

namespace footing {

namespace {

// Advances of ASCII 32 to 126 in hundredths of the text size: the wider of Inter and DejaVu Sans, measured
// with Pango.
constexpr std::array<std::uint8_t, 95> regular_advance{
    32, 40, 46, 84, 64, 95, 78, 27, 39,  41, 50, 84, 32, 46, 32, 36, 64, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 53, 100, 71, 69, 73, 77, 63, 59, 77, 75, 29, 54, 66, 56, 89, 75, 79,
    63, 79, 69, 64, 64, 74, 68, 99, 69,  66, 69, 39, 36, 39, 84, 50, 50, 61, 63, 56, 63, 62, 36, 63,
    63, 28, 28, 58, 28, 97, 63, 61, 63,  63, 39, 52, 39, 63, 59, 82, 59, 59, 54, 64, 34, 64, 84};
constexpr double bold_over_regular = 1.1;
constexpr double other_advance = 0.95;  // arrows, marks, and scripts that the table does not know

}  // namespace

double text_width(std::string_view text, TextSize size, TextWeight weight) {
    double ems = 0.0;
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        if (byte >= 32 && byte < 127) {
            ems += regular_advance[byte - 32U] / 100.0;
        } else if ((byte & 0xC0U) != 0x80U) {
            ems += other_advance;
        }
    }
    return ems * text_px(size) * (weight == TextWeight::bold ? bold_over_regular : 1.0);
}

void FigureKit::line(FigurePoint from, FigurePoint to, Ink ink, double width, LineStyle style,
                     double opacity) {
    figure_.shapes.push_back(FigureLine{{from, to}, ink, width, style, opacity});
}

void FigureKit::path(std::vector<FigurePoint> points, Ink ink, double width, LineStyle style,
                     double opacity) {
    if (points.size() < 2) return;
    figure_.shapes.push_back(FigureLine{std::move(points), ink, width, style, opacity});
}

void FigureKit::area(const FigureBox& box, Ink fill, double opacity) {
    polygon({{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}},
            fill, opacity);
}

void FigureKit::polygon(std::vector<FigurePoint> points, Ink fill, double opacity) {
    if (points.size() < 3) return;
    figure_.shapes.push_back(FigureArea{std::move(points), fill, opacity});
}

void FigureKit::outline(const FigureBox& box, Ink ink, double width) {
    path({{box.left, box.top},
          {box.right, box.top},
          {box.right, box.bottom},
          {box.left, box.bottom},
          {box.left, box.top}},
         ink, width);
}

void FigureKit::mark(FigurePoint at, MarkShape shape, double radius, Ink ink) {
    const bool round = shape == MarkShape::dot || shape == MarkShape::ring;
    const MarkShape rim = shape == MarkShape::diamond_hollow ? MarkShape::diamond
                          : round                            ? MarkShape::dot
                                                             : shape;
    figure_.shapes.push_back(FigureMark{at, rim, radius + (round ? 1.5 : 2.5), Ink::paper});
    figure_.shapes.push_back(FigureMark{at, shape, radius, ink});
}

void FigureKit::text(FigurePoint at, std::string text, Ink ink, Align align, TextSize size,
                     TextWeight weight) {
    figure_.shapes.push_back(FigureText{at, std::move(text), size, weight, align, ink});
}

std::vector<Label> spread_labels(std::vector<Label> labels, double spacing, double top, double bottom) {
    while (!labels.empty() && static_cast<double>(labels.size() - 1) * spacing > bottom - top) {
        labels.erase(std::min_element(labels.begin(), labels.end(), [](const Label& a, const Label& b) {
            return a.importance < b.importance;
        }));
    }
    std::stable_sort(labels.begin(), labels.end(),
                     [](const Label& a, const Label& b) { return a.wanted_y < b.wanted_y; });

    // Least squares under "at least `spacing` apart": groups that touch are joined and stand at their mean
    // wish.
    struct Group {
        double first_y;  // of its first label
        double wish_sum;
        std::size_t count;
    };
    std::vector<Group> groups;
    const auto settle = [&](Group& group) {
        const double height = static_cast<double>(group.count - 1) * spacing;
        const double wish = group.wish_sum / static_cast<double>(group.count);
        group.first_y = std::max(top, std::min(wish, bottom - height));
    };
    for (const Label& label : labels) {
        groups.push_back({0.0, label.wanted_y, 1});
        settle(groups.back());
        while (groups.size() > 1) {
            Group& upper = groups[groups.size() - 2];
            const Group& lower = groups.back();
            const double upper_height = static_cast<double>(upper.count) * spacing;
            if (upper.first_y + upper_height <= lower.first_y) break;
            upper.wish_sum += lower.wish_sum - static_cast<double>(lower.count) * upper_height;
            upper.count += lower.count;
            groups.pop_back();
            settle(groups.back());
        }
    }
    std::size_t next = 0;
    for (const Group& group : groups) {
        for (std::size_t i = 0; i < group.count; ++i) {
            labels[next++].y = group.first_y + static_cast<double>(i) * spacing;
        }
    }
    return labels;
}

std::vector<FigurePoint> thinned_down(const std::vector<FigurePoint>& points) {
    std::vector<FigurePoint> kept;
    std::size_t begin = 0;
    while (begin < points.size()) {
        const double row = std::floor(points[begin].y);
        std::size_t leftmost = begin;
        std::size_t rightmost = begin;
        std::size_t end = begin;
        while (end < points.size() && std::floor(points[end].y) == row) {
            if (points[end].x < points[leftmost].x) leftmost = end;
            if (points[end].x > points[rightmost].x) rightmost = end;
            ++end;
        }
        std::array<std::size_t, 4> chosen{begin, std::min(leftmost, rightmost), std::max(leftmost, rightmost),
                                          end - 1};
        std::size_t last = points.size();
        for (const std::size_t index : chosen) {
            if (index != last) kept.push_back(points[index]);
            last = index;
        }
        begin = end;
    }
    return kept;
}

std::vector<FigurePoint> thinned_path(const std::vector<FigurePoint>& points, double distance) {
    std::vector<FigurePoint> kept;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const bool end = i == 0 || i + 1 == points.size();
        if (end || std::hypot(points[i].x - kept.back().x, points[i].y - kept.back().y) >= distance) {
            kept.push_back(points[i]);
        }
    }
    return kept;
}

}  // namespace footing
