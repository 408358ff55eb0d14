#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "analysis/report/swing_figure.h"
#include "viewer/panels/label_subject.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// The columns of a row; heads and rows are cut alike.
struct Columns {
    Box number;
    Box kind;
    Box address;
    Box top;
    Box impact;
    Box tempo;
};

Columns columns_of(const ScreenCanvas& canvas, Box row) {
    row = row.inset(canvas.px(8), 0.0F);
    Columns columns;
    columns.number = row.cut_left(canvas.px(32));
    columns.tempo = row.cut_right(canvas.px(56));
    columns.impact = row.cut_right(canvas.px(56));
    columns.top = row.cut_right(canvas.px(56));
    columns.address = row.cut_right(canvas.px(56));
    columns.kind = row;
    return columns;
}

void draw_share_cell(ScreenCanvas& canvas, Box cell, const std::optional<ShareValue>& share) {
    if (!share) {
        canvas.text(cell, "–", TextSize::text, Ink::quiet, Align::right);
        return;
    }
    const Box number = cell.cut_right(canvas.px(26));
    canvas.mark({number.left - canvas.px(10), cell.middle_y()}, mark_of(share->verdict), 4.5F, Ink::ink);
    canvas.text(number, fmt::format("{:.0f}", share->value * 100.0), TextSize::text, Ink::ink, Align::right);
}

/// The carry where there is one, else what kind of swing it was.
std::string kind_or_carry(const ViewState& state, std::size_t place) {
    const std::vector<SwingLabel>& labels = state.desk ? state.desk->labels : state.said.labels;
    if (place < labels.size() && labels[place].carry_m) {
        const SwingLabel& label = labels[place];
        const std::string carry =
            carry_words(*label.carry_m, state.desk ? state.desk->unit : state.said.unit);
        if (carry_left_out(label)) return "(" + carry + ")";
        return carry + (lacks_wedge_or_length(label) ? " ?" : "");
    }
    return kind_words(state, place);
}

void draw_row(ScreenCanvas& canvas, const Box& row, const ViewState& state, std::size_t place) {
    const Swing& swing = state.lesson->swings[place];
    const Columns columns = columns_of(canvas, row);
    canvas.text(columns.number, fmt::format("{}", swing.index), TextSize::text, Ink::ink, Align::left,
                TextWeight::bold);
    canvas.text(columns.kind, kind_or_carry(state, place), TextSize::small, Ink::quiet);
    draw_share_cell(canvas, columns.address, swing.lead_share.address);
    draw_share_cell(canvas, columns.top, swing.lead_share.top);
    draw_share_cell(canvas, columns.impact, swing.lead_share.impact);
    canvas.text(columns.tempo, swing.tempo ? fmt::format("{:.1f}", swing.tempo->ratio) : "–", TextSize::text,
                swing.tempo ? Ink::ink : Ink::quiet, Align::right);
}

void draw_heads(ScreenCanvas& canvas, const Box& row) {
    const Columns columns = columns_of(canvas, row);
    canvas.text({row.left, row.top, columns.address.left, row.bottom}, "swings", TextSize::text, Ink::ink,
                Align::left, TextWeight::bold);
    canvas.text(columns.address, "address", TextSize::small, Ink::quiet, Align::right);
    canvas.text(columns.top, "top", TextSize::small, Ink::quiet, Align::right);
    canvas.text(columns.impact, "impact", TextSize::small, Ink::quiet, Align::right);
    canvas.text(columns.tempo, "tempo", TextSize::small, Ink::quiet, Align::right);
    canvas.line({row.left, row.bottom}, {row.right, row.bottom}, Ink::grid);
}

/// Follows the chosen swing unless the coach turned the wheel.
std::size_t first_row(const ViewState& state, std::size_t visible) {
    const std::size_t count = state.lesson->swings.size();
    const std::size_t last_first = count > visible ? count - visible : 0;
    if (state.list_top) return std::min(*state.list_top, last_first);
    const std::size_t chosen = state.chosen.value_or(0);
    return std::min(chosen > visible / 2 ? chosen - visible / 2 : 0, last_first);
}

}  // namespace

void draw_swing_list(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                     std::vector<ViewAction>& asked) {
    canvas.enter("list");
    Box rest = box;
    draw_heads(canvas, rest.cut_top(canvas.px(32)));
    rest.cut_top(canvas.px(4));
    const std::vector<Swing>& swings = state.lesson->swings;
    const float row_height = canvas.px(28);
    const auto visible = static_cast<std::size_t>(std::max(1.0F, std::floor(rest.height() / row_height)));
    const std::size_t top = first_row(state, visible);
    const Box all = rest;

    for (std::size_t place = top; place < std::min(top + visible, swings.size()); ++place) {
        const Box row = rest.cut_top(row_height);
        const Touch found = touch(static_cast<int>(place), row);
        if (found == Touch::pressed) {
            const bool compare = ImGui::GetIO().KeyCtrl;
            asked.push_back(compare ? ViewAction{CompareSwing{place}} : ViewAction{ChooseSwing{place}});
            asked.push_back(ScrollList{top});
        }
        if (place == state.chosen) {
            canvas.fill(row, Ink::band, 1.0, 4.0F);
            canvas.fill(
                {row.left, row.top + canvas.px(4), row.left + canvas.px(3), row.bottom - canvas.px(4)},
                Ink::ink);
        } else if (place == state.compared) {
            canvas.frame(row.inset(0.5F, 0.5F), Ink::quiet, 1.0F, 4.0F);
        } else if (found == Touch::hovered) {
            canvas.fill(row, Ink::band, 0.5, 4.0F);
        }
        draw_row(canvas, row, state, place);
    }

    if (swings.size() > visible) {
        const float wheel = ImGui::GetIO().MouseWheel;
        const ImVec2 mouse = ImGui::GetIO().MousePos;
        const bool over =
            mouse.x >= all.left && mouse.x < all.right && mouse.y >= all.top && mouse.y < all.bottom;
        if (over && wheel != 0.0F) {
            const auto moved = static_cast<long>(top) - std::lround(wheel * 2.0F);
            asked.push_back(ScrollList{static_cast<std::size_t>(std::max(0L, moved))});
        }
        const auto count = static_cast<float>(swings.size());
        const float track = row_height * static_cast<float>(visible);
        const float bar_top = all.top + track * static_cast<float>(top) / count;
        canvas.fill({all.right - canvas.px(2), bar_top, all.right,
                     bar_top + track * static_cast<float>(visible) / count},
                    Ink::quiet, 0.6, 1.0F);
    }
}

}  // namespace footing
