#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "acquisition/frame/count_words.h"
#include "viewer/panels/figure_painter.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// O: which shot it is, and what it stands beside.
std::string shot_words(const ViewState& state) {
    const std::vector<ComparedSwing>& picked = state.compare->picked;
    if (picked.empty()) return "no shot after these practice swings";
    const ComparedSwing& last = picked.back();
    const std::string shot =
        fmt::format("{} {}", compared_kind(state, last) == SwingKind::shot ? "shot" : "swing",
                    compared_lessons(state)[last.lesson]->swings[last.place].index);
    if (picked.size() == 1) return shot + " without practice swings before it";
    return shot + " against its practice swing" + (picked.size() == 2 ? "" : "s");
}

std::string picked_words(const ViewState& state) {
    const Picked how = state.compare->how;
    const std::size_t count = state.compare->picked.size();
    const auto counted = [&](const char* one, const char* many) { return count_words(count, one, many); };
    switch (how) {
        case Picked::shots:
            return counted("shot", "shots");
        case Picked::practice:
            return counted("practice swing", "practice swings");
        case Picked::shot_and_practice:
            return shot_words(state);
        case Picked::all:
        case Picked::by_hand:
            break;
    }
    return counted("swing", "swings");
}

struct Button {
    const char* name;
    std::string words;
    const char* key;
    CompareAction action;
    bool holds;
};

void draw_buttons(ScreenCanvas& canvas, Box row, const ViewState& state, std::vector<ViewAction>& asked) {
    const CompareDesk& desk = *state.compare;
    const auto pick = [&](const char* name, const char* words, const char* key, Picked how) {
        return Button{name, words, key, PickKind{how}, desk.how == how};
    };
    const std::string on = fmt::format("aligned on {}", named_events[desk.event].name);
    const std::array<Button, 7> buttons{
        {pick("shots", "shots", "S", Picked::shots), pick("practice", "practice", "P", Picked::practice),
         pick("all", "all", "A", Picked::all),
         pick("own", "the shot and its practice", "O", Picked::shot_and_practice),
         Button{"this", "this one in or out", "Space", PickThis{}, false},
         Button{"align", on, "E", AlignOnNext{}, false},
         Button{"back", "back", "Esc", HideCompare{}, false}}};
    for (const Button& button : buttons) {
        const float words = canvas.text_width(button.words, TextSize::text) + 1.0F;
        const float key = canvas.text_width(button.key, TextSize::small) + 1.0F;
        Box box = row.cut_left(words + key + canvas.px(24));
        row.cut_left(canvas.px(4));
        const Touch found = touch(button.name, box);
        if (found == Touch::pressed) asked.push_back(button.action);
        if (button.holds || found == Touch::hovered)
            canvas.fill(box, Ink::band, button.holds ? 1.0 : 0.5, 4.0F);
        Box inside = box.inset(canvas.px(8), 0.0F);
        canvas.text(inside.cut_left(words), button.words, TextSize::text, Ink::ink);
        inside.cut_left(canvas.px(8));
        canvas.text(inside, button.key, TextSize::small, Ink::quiet);
    }
}

void draw_swing(ScreenCanvas& canvas, Box row, const ViewState& state, const ComparedSwing& swing) {
    const LessonResult& lesson = *compared_lessons(state)[swing.lesson];
    const Swing& it = lesson.swings[swing.place];
    row = row.inset(canvas.px(12), 0.0F);
    const Box mark = row.cut_left(canvas.px(24));
    const bool picked = is_picked(*state.compare, swing);
    canvas.mark({mark.left + canvas.px(6), mark.middle_y()}, picked ? MarkShape::dot : MarkShape::ring, 4.5F,
                picked ? Ink::ink : Ink::quiet);
    const Box address = row.cut_right(canvas.px(64));
    canvas.text(row.cut_left(canvas.px(40)), fmt::format("{}", it.index), TextSize::text, Ink::ink,
                Align::left, TextWeight::bold);
    const SwingKind kind = compared_kind(state, swing);
    canvas.text(row, kind == SwingKind::unknown ? "" : kind_name(kind), TextSize::text,
                picked ? Ink::ink : Ink::quiet);
    if (it.lead_share.address) {
        canvas.text(address, fmt::format("{:.0f} %", it.lead_share.address->value * 100.0), TextSize::text,
                    picked ? Ink::ink : Ink::quiet, Align::right);
    }
}

void draw_list(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked) {
    const CompareDesk& desk = *state.compare;
    const std::vector<ComparedSwing> list = compared_list(state);
    Box other = box.cut_bottom(canvas.px(56));
    Box head = box.cut_top(canvas.px(32));
    canvas.text(head.cut_right(canvas.px(96)), "at address", TextSize::small, Ink::quiet, Align::right);
    canvas.text(head, "swings", TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    canvas.line({box.left, box.top}, {box.right, box.top}, Ink::grid);
    box.cut_top(canvas.px(4));
    const float height = canvas.px(28);
    const auto visible = static_cast<std::size_t>(std::max(1.0F, std::floor(box.height() / height)));
    const std::size_t last_first = list.size() > visible ? list.size() - visible : 0;
    const std::size_t first = std::min(desk.row > visible / 2 ? desk.row - visible / 2 : 0, last_first);
    for (std::size_t at = first; at < std::min(first + visible, list.size()); ++at) {
        const Box row = box.cut_top(height);
        const Touch found = touch(static_cast<int>(at), row);
        if (found == Touch::pressed) asked.push_back(CompareAction{PickSwing{at}});
        if (at == desk.row) {
            canvas.fill(row, Ink::band, 1.0, 4.0F);
        } else if (found == Touch::hovered) {
            canvas.fill(row, Ink::band, 0.5, 4.0F);
        }
        if (at > 0 && list[at].lesson != list[at - 1].lesson)
            canvas.line({row.left, row.top}, {row.right, row.top}, Ink::quiet);
        draw_swing(canvas, row, state, list[at]);
    }
    const float wheel = ImGui::GetIO().MouseWheel;
    if (wheel != 0.0F && list.size() > visible)
        asked.push_back(CompareAction{MoveInList{wheel > 0.0F ? -3 : 3}});
    other.cut_top(canvas.px(8));
    if (desk.other) {
        canvas.text(other.cut_top(canvas.px(24)), "below the line: " + other_lesson_words(state),
                    TextSize::text, Ink::ink);
        canvas.text(other, "Del leaves that lesson out", TextSize::small, Ink::quiet);
    } else if (!desk.other_file.empty()) {
        canvas.text(other.cut_top(canvas.px(24)), "reading the other lesson", TextSize::text, Ink::quiet);
    } else if (state.book) {
        canvas.text(other.cut_top(canvas.px(24)), "L  lay another lesson beside it", TextSize::text,
                    Ink::ink);
        canvas.text(other, "on the page of lessons, C takes one", TextSize::small, Ink::quiet);
    }
}

}  // namespace

void draw_compare(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                  std::vector<ViewAction>& asked) {
    canvas.enter("compare");
    const CompareDesk& desk = *state.compare;
    Box rest = window.inset(canvas.px(24), canvas.px(16));
    Box title = rest.cut_top(canvas.px(32));
    canvas.text(title, picked_words(state) + ", aligned on " + named_events[desk.event].name,
                TextSize::heading, Ink::ink, Align::left, TextWeight::bold);
    const Box buttons = rest.cut_bottom(canvas.px(40));
    canvas.line({buttons.left, buttons.top}, {buttons.right, buttons.top}, Ink::grid);
    draw_buttons(canvas, {buttons.left, buttons.top + canvas.px(4), buttons.right, buttons.bottom}, state,
                 asked);
    rest.cut_bottom(canvas.px(8));
    const Box column = rest.cut_right(canvas.px(312));
    rest.cut_right(canvas.px(32));
    if (state.problem) {
        draw_problem(canvas, rest.cut_top(problem_height(canvas, rest.width(), state)), state, asked);
        rest.cut_top(canvas.px(8));
        canvas.enter("compare");
    }
    draw_list(canvas, column, state, asked);

    const Comparison* comparison = desk.comparison.get();
    if (desk.picked.empty() || !comparison) {
        canvas.text(rest.cut_top(canvas.px(32)),
                    desk.picked.empty() ? "None of the swings is picked: S, P, A, or Space takes them in."
                                        : "Laying them over each other",
                    TextSize::text, Ink::quiet);
        return;
    }
    std::string words;
    for (const std::string& sentence : aligned_words(comparison->aligned, comparison->names))
        words += (words.empty() ? "" : " ") + sentence;
    canvas.text(rest.cut_top(canvas.px(28)), words, TextSize::text, Ink::quiet);
    rest.cut_top(canvas.px(8));
    const auto scale = static_cast<double>(canvas.scale());
    paint_figure(
        canvas,
        aligned_figure(comparison->aligned, comparison->names, state.lesson->band,
                       static_cast<double>(rest.width()) / scale, static_cast<double>(rest.height()) / scale),
        {rest.left, rest.top});
}

}  // namespace footing
