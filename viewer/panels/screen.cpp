#include "viewer/panels/screen.h"

#include <imgui.h>

#include "viewer/panels/book_panels.h"
#include "viewer/panels/deciding_panel.h"
#include "viewer/panels/lesson_proof.h"
#include "viewer/panels/panels.h"

namespace footing {

namespace {

constexpr ImGuiWindowFlags whole_screen = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoBackground |
                                          ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                                          ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoNav |
                                          ImGuiWindowFlags_NoScrollWithMouse;

ImVec4 to_vector(ImU32 colour) {
    return ImGui::ColorConvertU32ToFloat4(colour);
}

/// The column at the right: numbers and the list of swings. Returns how much of the stage it leaves.
Box draw_column(ScreenCanvas& canvas, const ViewState& state, ScreenDrawn& drawn) {
    const ScreenLayout& layout = drawn.layout;
    Box stage = layout.stage;
    Box list = layout.list;
    // Between swings it is read from where the plates lie; at a desk all numbers are wanted.
    if (state.desk && chosen_swing(state) && !compared_swing(state)) {
        const Grown grown({layout.title.left, layout.title.bottom, layout.title.right, layout.timeline.top},
                          state);
        const Box column{list.right - deciding_width(canvas, grown), layout.figure.top, list.right,
                         list.bottom};
        stage.right = column.left - canvas.px(24);
        list = draw_deciding(canvas, column, state, grown, drawn.asked);
        list.cut_top(canvas.px(8));
    } else {
        draw_share(canvas, layout.figure, state);
        draw_numbers(canvas, layout.numbers, state, drawn.asked);
    }
    if (!state.lesson->swings.empty()) draw_swing_list(canvas, list, state, drawn.asked);
    return stage;
}

void draw_lesson(ScreenCanvas& canvas, const ViewState& state, ScreenDrawn& drawn) {
    const ScreenLayout& layout = drawn.layout;
    if (state.desk) {
        draw_lesson_title(canvas, layout.title, state);
    } else {
        draw_title(canvas, layout.title, state);
    }
    Box stage = draw_column(canvas, state, drawn);
    if (state.desk && is_simulated(*state.desk)) {
        draw_simulated(canvas, stage.cut_top(canvas.px(36)), *state.desk);
        stage.cut_top(canvas.px(12));
    }
    if (state.problem) {
        draw_problem(canvas, stage.cut_top(problem_height(canvas, stage.width(), state)), state, drawn.asked);
        stage.cut_top(canvas.px(16));
    }
    draw_stage(canvas, stage, state, drawn.asked);
    draw_transport(canvas, layout.transport, state, drawn.asked);
    const bool reading = !state.opening.empty() && !state.desk;
    if (reading) {
        draw_reading(canvas, layout.timeline, state, drawn.asked);
        return;
    }
    if (state.desk) {
        draw_label_strip(canvas, layout.timeline, state, drawn.asked);
    } else if (!state.notice.empty()) {
        draw_notice(canvas, layout.timeline, state);
    } else {
        draw_timeline(canvas, layout.timeline, state, drawn.asked);
    }
}

/// Those screens that say at their top how the lesson is recorded.
bool has_lesson_title(const ViewState& state) {
    const bool of_book = state.book && state.front == Front::book;
    const bool compared = state.lesson && state.compare && state.front == Front::compare;
    return state.overlay == Overlay::none && !of_book && !compared;
}

/// Those screens that have a place of their own for what is told; the others have it at their foot.
bool has_place_for_notice(const ViewState& state) {
    if (state.overlay != Overlay::none) return false;
    if (state.book && state.front == Front::book) return true;
    if (state.lesson && state.compare && state.front == Front::compare) return false;
    return state.desk || state.lesson;  // a file that is being read stands there first
}

void draw_set_up_view(ScreenCanvas& canvas, const ViewState& state, ScreenDrawn& drawn) {
    const ScreenLayout& layout = drawn.layout;
    draw_lesson_title(canvas, layout.title, state);
    Box middle{layout.title.left, layout.title.bottom, layout.title.right, layout.timeline.top};
    middle = middle.inset(0.0F, canvas.px(8));
    if (state.problem) {
        draw_problem(canvas, middle.cut_top(problem_height(canvas, middle.width(), state)), state,
                     drawn.asked);
        middle.cut_top(canvas.px(8));
    }
    if (is_simulated(*state.desk)) {
        draw_simulated(canvas, middle.cut_top(canvas.px(36)), *state.desk);
        middle.cut_top(canvas.px(8));
    }
    draw_set_up(canvas, middle, state);
    draw_label_strip(canvas, layout.timeline, state, drawn.asked);
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
    ImGui::PushFont(fonts.face(TextSize::small, TextWeight::regular));
    ImGui::PushStyleColor(ImGuiCol_PopupBg, to_vector(canvas.colour(Ink::paper)));
    ImGui::PushStyleColor(ImGuiCol_Text, to_vector(canvas.colour(Ink::ink)));
    ImGui::PushStyleColor(ImGuiCol_Border, to_vector(canvas.colour(Ink::quiet)));

    Box window = drawn.layout.window;
    const auto alarm = has_lesson_title(state) ? std::nullopt : lesson_alarm(state);
    if (alarm) draw_lesson_alarm(canvas, window.cut_top(canvas.px(40)), *alarm);
    if (!state.notice.empty() && !has_place_for_notice(state)) {
        draw_notice(canvas, window.cut_bottom(notice_height(canvas, window.width(), state)), state);
    }
    if (state.overlay == Overlay::keys) {
        draw_keys(canvas, window, state, drawn.asked);
    } else if (state.lesson && state.overlay == Overlay::numbers) {
        draw_all_numbers(canvas, window, state, drawn.asked);
    } else if (state.overlay == Overlay::recent) {
        draw_recent(canvas, window, state, drawn.asked);
    } else if (state.overlay == Overlay::ask_to_close) {
        draw_ask_to_close(canvas, window, state, drawn.asked);
    } else if (state.book && state.front == Front::book) {
        draw_book(canvas, window, state, drawn.asked);
    } else if (state.lesson && state.compare && state.front == Front::compare) {
        draw_compare(canvas, window, state, drawn.asked);
    } else if (state.desk && state.desk->showing == Showing::set_up) {
        draw_set_up_view(canvas, state, drawn);
    } else if (state.lesson) {
        draw_lesson(canvas, state, drawn);
    } else {
        draw_empty(canvas, window, state, drawn.asked);
    }

    ImGui::PopStyleColor(3);
    ImGui::PopFont();
    ImGui::End();
    return drawn;
}

}  // namespace footing
