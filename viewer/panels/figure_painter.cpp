#include "viewer/panels/figure_painter.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace footing {

namespace {

// ImDrawIdx has 16 bits; an anti-aliased line takes four vertices a point.
constexpr std::size_t most_points_at_once = 10'000;
constexpr float dash_px = 6.0F;

/// Whether every edge of a polygon turns the same way about a point, so that triangles from there fill it.
bool sees_every_edge(ImVec2 middle, const std::vector<ImVec2>& points) {
    bool left = false;
    bool right = false;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const ImVec2 a = points[i];
        const ImVec2 b = points[(i + 1) % points.size()];
        const float turn = (a.x - middle.x) * (b.y - middle.y) - (a.y - middle.y) * (b.x - middle.x);
        left = left || turn > 0.01F;
        right = right || turn < -0.01F;
    }
    return !(left && right);
}

struct Painter {
    ScreenCanvas& canvas;
    ImVec2 origin;
    Box bounds;
    float text_scale = 1.0F;

    [[nodiscard]] ImVec2 place(const FigurePoint& point) const {
        return {origin.x + static_cast<float>(point.x) * canvas.scale(),
                origin.y + static_cast<float>(point.y) * canvas.scale()};
    }

    [[nodiscard]] std::vector<ImVec2> place_all(const std::vector<FigurePoint>& points) const {
        std::vector<ImVec2> placed;
        placed.reserve(points.size());
        for (const FigurePoint& point : points) {
            if (std::isfinite(point.x) && std::isfinite(point.y)) placed.push_back(place(point));
        }
        return placed;
    }

    void solid(std::span<const ImVec2> points, ImU32 colour, float width) const {
        for (std::size_t from = 0; from + 1 < points.size(); from += most_points_at_once - 1) {
            const std::size_t count = std::min(points.size() - from, most_points_at_once);
            canvas.list().AddPolyline(points.data() + from, static_cast<int>(count), colour, ImDrawFlags_None,
                                      width);
        }
    }

    void dashed(std::span<const ImVec2> points, ImU32 colour, float width) const {
        const float dash = dash_px * canvas.scale();
        float along = 0.0F;  // since the first point; even dashes are drawn, odd ones are gaps
        for (std::size_t i = 0; i + 1 < points.size(); ++i) {
            const ImVec2 from = points[i];
            const ImVec2 to = points[i + 1];
            const float length = std::hypot(to.x - from.x, to.y - from.y);
            float done = 0.0F;
            while (done < length) {
                const float rest = dash - std::fmod(along + done, dash);
                const float next = std::min(done + std::max(rest, 0.01F), length);
                if (std::fmod(along + done, 2.0F * dash) < dash) {
                    const auto on = [&](float s) {
                        return ImVec2{from.x + (to.x - from.x) * s / length,
                                      from.y + (to.y - from.y) * s / length};
                    };
                    canvas.list().AddLine(on(done), on(next), colour, width);
                }
                done = next;
            }
            along += length;
        }
    }

    void operator()(const FigureLine& line) const {
        const std::vector<ImVec2> points = place_all(line.points);
        const ImU32 colour = canvas.colour(line.ink, line.opacity);
        const auto width = static_cast<float>(line.width) * canvas.scale();
        if (line.style == LineStyle::dashed) {
            dashed(points, colour, width);
        } else {
            solid(points, colour, width);
        }
    }

    void operator()(const FigureArea& area) const {
        const std::vector<ImVec2> points = place_all(area.points);
        if (points.size() < 3) return;
        // Outlines of feet are not convex everywhere, but seen from their middle every edge is in view.
        ImVec2 middle{0.0F, 0.0F};
        for (const ImVec2& point : points) {
            middle.x += point.x / static_cast<float>(points.size());
            middle.y += point.y / static_cast<float>(points.size());
        }
        const ImU32 colour = canvas.colour(area.fill, area.opacity);
        ImDrawList& list = canvas.list();
        if (points.size() == 4) {
            list.AddConvexPolyFilled(points.data(), 4, colour);
            return;
        }
        const ImDrawListFlags before = list.Flags;
        list.Flags &=
            ~ImDrawListFlags_AntiAliasedFill;  // soft edges between the triangles would show as spokes
        if (sees_every_edge(middle, points)) {
            for (std::size_t i = 0; i < points.size(); ++i)
                list.AddTriangleFilled(middle, points[i], points[(i + 1) % points.size()], colour);
        } else {  // a winding band: one edge there, the other one back
            for (std::size_t i = 0; i + 1 < points.size() / 2; ++i) {
                const ImVec2 back = points[points.size() - 1 - i];
                const ImVec2 next_back = points[points.size() - 2 - i];
                list.AddTriangleFilled(points[i], points[i + 1], back, colour);
                list.AddTriangleFilled(points[i + 1], next_back, back, colour);
            }
        }
        list.Flags = before;
    }

    void operator()(const FigureMark& mark) const {
        canvas.mark(place(mark.at), mark.shape, static_cast<float>(mark.radius), mark.ink);
    }

    void operator()(const FigureText& text) const {
        canvas.text_on_baseline(place(text.at), text.text, text.size, text.weight, text.align, text.ink,
                                bounds, text_scale);
    }
};

}  // namespace

void paint_figure(ScreenCanvas& canvas, const Figure& figure, ImVec2 origin) {
    const Painter painter{canvas,
                          origin,
                          {origin.x, origin.y, origin.x + static_cast<float>(figure.width) * canvas.scale(),
                           origin.y + static_cast<float>(figure.height) * canvas.scale()},
                          static_cast<float>(figure.text_scale)};
    for (const FigureShape& shape : figure.shapes) std::visit(painter, shape);
}

}  // namespace footing
