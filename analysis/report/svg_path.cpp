#include "analysis/report/svg_path.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>

namespace footing {

namespace {

/// Coordinates are tenths of a px.
long tenths_of(double px) {
    return std::lround(10.0 * px);
}

std::string number_of(long tenths) {
    const long whole = std::abs(tenths) / 10;
    const long part = std::abs(tenths) % 10;
    std::string text = tenths < 0 ? "-" : "";
    if (whole != 0 || part == 0) text += fmt::format("{}", whole);
    if (part != 0) text += fmt::format(".{}", part);
    return text;
}

/// A minus sign parts two numbers as well as a blank does.
void append_number(std::string& path, long tenths) {
    const char last = path.empty() ? 'M' : path.back();
    const bool behind_number = (last >= '0' && last <= '9') || last == '.';
    if (behind_number && tenths >= 0) path += ' ';
    path += number_of(tenths);
}

/// Whether what lies between two points keeps within `near_px` of the straight line between them.
bool straight(const std::vector<FigurePoint>& points, std::size_t from, std::size_t to) {
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
std::vector<FigurePoint> fewer(const std::vector<FigurePoint>& points) {
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

}  // namespace

std::string svg_number(double px) {
    return number_of(tenths_of(px));
}

std::string svg_path(const std::vector<FigurePoint>& points) {
    std::string path;
    long x = 0;
    long y = 0;
    char last = 'M';
    for (const FigurePoint& point : fewer(points)) {
        // From the rounded place before, so that rounding does not add up.
        const long step_x = tenths_of(point.x) - x;
        const long step_y = tenths_of(point.y) - y;
        x += step_x;
        y += step_y;
        if (path.empty()) {
            path = "M" + number_of(x);
            append_number(path, y);
            continue;
        }
        if (step_x == 0 && step_y == 0) continue;
        const char command = step_y == 0 ? 'h' : step_x == 0 ? 'v' : 'l';
        if (command != last) path += command;
        last = command;
        if (step_x != 0) append_number(path, step_x);
        if (step_y != 0) append_number(path, step_y);
    }
    return path;
}

}  // namespace footing
