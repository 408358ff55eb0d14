#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "viewer/panels/figure_painter.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/stage_figure.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

constexpr float grip_px = 5.0F;          // above and below an event's line
constexpr float pull_px = 3.0F;          // a press that moves less is no drag
constexpr int first_event_number = 900;  // of the touched parts

/// The picture in its box, and the way between its px and the screen's.
struct Stage {
    ScreenCanvas& canvas;
    Box box;
    const SwingScale& scale;

    [[nodiscard]] float y_of(double time_s) const {
        return box.top + static_cast<float>(scale.y_of(time_s - scale.zero_s)) * canvas.scale();
    }
    [[nodiscard]] double time_at(float y) const {
        return scale.time_at(static_cast<double>((y - box.top) / canvas.scale()));
    }
    [[nodiscard]] Box trace() const {
        const auto at = [&](double design_px) { return static_cast<float>(design_px) * canvas.scale(); };
        return {box.left + at(scale.trace.left), box.top + at(scale.trace.top),
                box.left + at(scale.trace.right), box.top + at(scale.trace.bottom)};
    }
};

/// Where the event's name stands beside the trace.
std::optional<Box> name_box(const Stage& stage, const char* name) {
    for (const PlacedText& placed : stage.canvas.placed()) {
        if (placed.panel == "stage" && placed.text == name && placed.drawn.right < stage.trace().left)
            return placed.drawn;
    }
    return std::nullopt;
}

/// An event can be taken by its line or by its name; held, it follows the pointer.
bool touch_event(const Stage& stage, std::size_t event, double time_s, std::vector<ViewAction>& asked) {
    ScreenCanvas& canvas = stage.canvas;
    const Box trace = stage.trace();
    const float y = stage.y_of(time_s);
    const float grip = canvas.px(grip_px);
    const int number = first_event_number + 2 * static_cast<int>(event);
    Touch found = touch(number, {trace.left, y - grip, trace.right, y + grip});
    if (const auto name = name_box(stage, named_events[event].name)) {
        const Touch by_name = touch(number + 1, {stage.box.left, name->top, trace.left, name->bottom});
        found = std::max(found, by_name);
    }
    if (found == Touch::none) return false;
    ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeNS);
    if (found == Touch::hovered) {
        canvas.line({trace.left, y}, {trace.right, y}, Ink::ink, 2.0F);
        return false;
    }
    const ImGuiIO& io = ImGui::GetIO();
    const float pulled = std::abs(io.MousePos.y - io.MouseClickedPos[0].y);
    const bool moved = found == Touch::held && pulled >= canvas.px(pull_px);
    // By how much the event itself is pulled, wherever it was taken.
    const double by_s = stage.time_at(io.MousePos.y) - stage.time_at(io.MouseClickedPos[0].y);
    asked.push_back(MarkAction{DragEvent{event, moved ? time_s + by_s : time_s}});
    return true;
}

/// Where the event is pulled to, over the picture that does not know of it yet.
void draw_dragged(const Stage& stage, const ViewState& state, const DraggedEvent& dragged) {
    ScreenCanvas& canvas = stage.canvas;
    const Box trace = stage.trace();
    const float y = std::clamp(stage.y_of(dragged.time_s), trace.top, trace.bottom);
    canvas.line({trace.left - canvas.px(16), y}, {trace.right, y}, Ink::ink, 2.5F);
    std::string words = named_events[dragged.event].name;
    words += dragged.hold == DraggedEvent::Hold::by_pointer
                 ? "  " + moment_words(chosen_swing(state), dragged.time_s)
                 : "  marked; reading anew";
    const float width = canvas.text_width(words, TextSize::text, TextWeight::bold) + 1.0F;
    const bool above = y - canvas.px(28) > trace.top;
    const float top = above ? y - canvas.px(28) : y + canvas.px(4);
    const Box label{trace.left + canvas.px(8), top, trace.left + canvas.px(24) + width, top + canvas.px(24)};
    canvas.fill(label, Ink::paper, 0.9, 4.0F);
    canvas.text(label.inset(canvas.px(8), 0.0F), words, TextSize::text, Ink::ink, Align::left,
                TextWeight::bold);
}

/// A full square on the trace's edge: the coach marked this event.
void draw_marked(const Stage& stage, const Swing& swing) {
    const float half = stage.canvas.px(4);
    const Box trace = stage.trace();
    for (const NamedEvent& named : named_events) {
        const auto& event = swing.events.*named.member;
        if (!event || event->source != EventSource::coach) continue;
        const float y = stage.y_of(event->time_s);
        if (y < trace.top || y > trace.bottom) continue;
        stage.canvas.fill({trace.left - half, y - half, trace.left + half, y + half}, Ink::ink);
    }
}

}  // namespace

void draw_stage(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                std::vector<ViewAction>& asked) {
    canvas.enter("stage");
    const auto scale = static_cast<double>(canvas.scale());
    const StageFigure figure = stage_figure(state, static_cast<double>(box.width()) / scale,
                                            static_cast<double>(box.height()) / scale);
    paint_figure(canvas, figure.figure, {box.left, box.top});
    const Stage stage{canvas, box, figure.scale};

    bool held = false;
    if (can_mark(state)) {
        const Swing& swing = *chosen_swing(state);
        for (std::size_t event = 0; event < named_events.size(); ++event) {
            const auto& found = swing.events.*named_events[event].member;
            if (found) held = touch_event(stage, event, found->time_s, asked) || held;
        }
        draw_marked(stage, swing);
        const std::optional<DraggedEvent>& dragged = state.marking.dragged;
        if (dragged) draw_dragged(stage, state, *dragged);
        if (dragged && dragged->hold == DraggedEvent::Hold::by_pointer && !held)
            asked.push_back(MarkAction{DropEvent{}});
    }
    const Touch found = touch("trace", stage.trace());
    if (!held && (found == Touch::pressed || found == Touch::held)) {
        const TimeSpan span = shown_span(state);
        asked.push_back(
            ScrubTo{std::clamp(stage.time_at(ImGui::GetIO().MousePos.y), span.from_s, span.to_s)});
    }
}

}  // namespace footing
