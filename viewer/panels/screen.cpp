#include "viewer/panels/screen.h"

#include <imgui.h>

#include "viewer/panels/panels.h"

namespace footing {

namespace {

constexpr ImGuiWindowFlags whole_screen =
    ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
    ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoScrollWithMouse;

ImVec4 to_vector(ImU32 colour) {
    return ImGui::ColorConvertU32ToFloat4(colour);
}

void draw_lesson(ScreenCanvas& canvas, const ViewState& state, ScreenDrawn& drawn) {
    const ScreenLayout& layout = drawn.layout;
    draw_title(canvas, layout.title, state);
    Box stage = layout.stage;
    if (state.problem) {
        draw_problem(canvas, stage.cut_top(problem_height(canvas, stage.width(), state)), state, drawn.asked);
        stage.cut_top(canvas.px(16));
    }
    draw_stage(canvas, stage, state, drawn.asked);
    draw_share(canvas, layout.figure, state);
    draw_numbers(canvas, layout.numbers, state, drawn.asked);
    if (!state.lesson->swings.empty()) draw_swing_list(canvas, layout.list, state, drawn.asked);
    draw_transport(canvas, layout.transport, state, drawn.asked);
    draw_timeline(canvas, layout.timeline, state, drawn.asked);
}

}  // namespace

ScreenDrawn draw_screen(const ViewState& state, const Fonts& fonts, float scale) {
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    ScreenDrawn drawn;
    drawn.layout = lay_out(size.x, size.y, scale, number_rows);

    ImGui::SetNextWindowPos({0.0F, 0.0F});
    ImGui::SetNextWindowSize(size);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0.0F, 0.0F});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0F);
    ImGui::Begin("footing", nullptr, whole_screen);
    ImGui::PopStyleVar(2);

    ScreenCanvas canvas(*ImGui::GetWindowDrawList(), fonts, state.theme, scale, drawn.texts);
    canvas.fill(drawn.layout.window, Ink::paper);
    ImGui::PushFont(fonts.face(TextSize::small, TextWeight::regular));
    ImGui::PushStyleColor(ImGuiCol_PopupBg, to_vector(canvas.colour(Ink::paper)));
    ImGui::PushStyleColor(ImGuiCol_Text, to_vector(canvas.colour(Ink::ink)));
    ImGui::PushStyleColor(ImGuiCol_Border, to_vector(canvas.colour(Ink::quiet)));

    if (state.overlay == Overlay::keys) {
        draw_keys(canvas, drawn.layout.window, drawn.asked);
    } else if (state.lesson && state.overlay == Overlay::numbers) {
        draw_all_numbers(canvas, drawn.layout.window, state, drawn.asked);
    } else if (state.lesson) {
        draw_lesson(canvas, state, drawn);
    } else {
        draw_empty(canvas, drawn.layout.window, state);
    }

    ImGui::PopStyleColor(3);
    ImGui::PopFont();
    ImGui::End();
    return drawn;
}

}  // namespace footing
