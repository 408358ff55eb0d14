#include "analysis/report/mark_outline.h"

namespace footing {

std::vector<FigurePoint> mark_outline(const FigureMark& mark) {
    const auto [x, y] = mark.at;
    const double r = mark.radius;
    switch (mark.shape) {
        case MarkShape::dot:
        case MarkShape::ring:
            return {};
        case MarkShape::diamond:
        case MarkShape::diamond_hollow:
            return {{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}};
        case MarkShape::triangle_left:
            return {{x - r, y}, {x + 0.8 * r, y - r}, {x + 0.8 * r, y + r}};
        case MarkShape::triangle_right:
            return {{x + r, y}, {x - 0.8 * r, y + r}, {x - 0.8 * r, y - r}};
    }
    return {};
}

MarkFill mark_fill(MarkShape shape) {
    switch (shape) {
        case MarkShape::ring:
        case MarkShape::diamond_hollow:
        case MarkShape::triangle_left:
        case MarkShape::triangle_right:
            return MarkFill::hollow;
        case MarkShape::dot:
        case MarkShape::diamond:
            return MarkFill::full;
    }
    return MarkFill::full;
}

}  // namespace footing
