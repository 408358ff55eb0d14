#include <imgui.h>

#include <algorithm>

#include "viewer/panels/figure_painter.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/stage_figure.h"
#include "viewer/panels/touch.h"

namespace footing {

void draw_stage(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                std::vector<ViewAction>& asked) {
    canvas.enter("stage");
    const auto scale = static_cast<double>(canvas.scale());
    const StageFigure stage = stage_figure(state, static_cast<double>(box.width()) / scale,
                                           static_cast<double>(box.height()) / scale);
    const FigureBox& trace = stage.scale.trace;
    const auto on_screen = [&](double x, double y) {
        return ImVec2{box.left + static_cast<float>(x * scale), box.top + static_cast<float>(y * scale)};
    };
    const ImVec2 from = on_screen(trace.left, trace.top);
    const ImVec2 to = on_screen(trace.right, trace.bottom);
    const Touch found = touch("trace", {from.x, from.y, to.x, to.y});
    if (found == Touch::pressed || found == Touch::held) {
        const double y = static_cast<double>(ImGui::GetIO().MousePos.y - box.top) / scale;
        const TimeSpan span = shown_span(state);
        asked.push_back(ScrubTo{std::clamp(stage.scale.time_at(y), span.from_s, span.to_s)});
    }
    paint_figure(canvas, stage.figure, {box.left, box.top});
}

}  // namespace footing
