#include <fmt/format.h>

#include <optional>
#include <string>

#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/swing_figure.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

struct Value {
    std::string words;
    std::optional<Verdict> verdict;
};

std::optional<Value> share_value(const std::optional<ShareValue>& share) {
    if (!share) return std::nullopt;
    return Value{share_words(*share), share->verdict};
}

std::optional<Value> tempo_value(const Swing& swing) {
    if (!swing.tempo) return std::nullopt;
    return Value{ratio_words(swing.tempo->ratio), std::nullopt};
}

std::optional<Value> load_value(const Swing& swing) {
    if (!swing.vertical) return std::nullopt;
    return Value{
        fmt::format("{:.0f} to {:.0f} %", swing.vertical->min_bw * 100.0, swing.vertical->max_bw * 100.0),
        std::nullopt};
}

struct Row {
    const char* name;
    const char* explanation;
    std::optional<Value> (*value)(const Swing& swing);
};

constexpr std::array<Row, number_rows> rows{{
    {"address", "Lead share while the student stands still over the ball.",
     [](const Swing& swing) { return share_value(swing.lead_share.address); }},
    {"top", "Lead share at the end of the backswing.",
     [](const Swing& swing) { return share_value(swing.lead_share.top); }},
    {"lowest", "The smallest lead share between takeaway and impact: how far the weight went back.",
     [](const Swing& swing) { return share_value(swing.lead_share.lowest); }},
    {"impact", "Lead share when the club meets the ball.",
     [](const Swing& swing) { return share_value(swing.lead_share.impact); }},
    {"finish", "Lead share while the finish is held.",
     [](const Swing& swing) { return share_value(swing.lead_share.finish); }},
    {"tempo", "Time from takeaway to top, against time from top to impact.",
     [](const Swing& swing) { return tempo_value(swing); }},
    {"load", "Least and greatest vertical load between takeaway and finish, in per cent of body weight.",
     [](const Swing& swing) { return load_value(swing); }},
}};

void draw_value(ScreenCanvas& canvas, Box cell, const std::optional<Value>& value) {
    if (!value) {
        canvas.text(cell, "not known", TextSize::small, Ink::quiet, Align::right);
        return;
    }
    const Box mark = cell.cut_right(canvas.px(24));
    if (value->verdict) {
        canvas.mark({mark.right - canvas.px(8), mark.middle_y()}, mark_of(*value->verdict), 5.0F, Ink::ink);
    }
    canvas.text(cell, value->words, TextSize::text, Ink::ink, Align::right);
}

}  // namespace

void draw_numbers(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                  std::vector<ViewAction>& asked) {
    canvas.enter("numbers");
    const Swing* swing = chosen_swing(state);
    const Swing* other = compared_swing(state);
    Box rest = box;
    Box head = rest.cut_top(canvas.px(32));
    canvas.line({head.left, head.bottom}, {head.right, head.bottom}, Ink::grid);
    if (!swing) {
        canvas.text(head, state.lesson->swings.empty() ? "no swings" : "no swing chosen", TextSize::text,
                    Ink::ink, Align::left, TextWeight::bold);
        rest.cut_top(canvas.px(8));
        canvas.paragraph(
            rest,
            state.lesson->swings.empty()
                ? no_swing_words(*state.lesson) +
                      " Drag on the timeline below to look around; Space plays from there."
                : "Between two swings. Pick one from the list, or press one on the timeline below.",
            TextSize::text, Ink::quiet);
        return;
    }
    const float name_width = canvas.px(72);
    const Touch found = touch("all numbers", head);
    if (found == Touch::pressed) asked.push_back(ToggleNumbers{});
    if (found == Touch::hovered) explain("Press, or N: all numbers of this swing.");
    if (!other)
        canvas.text(head.cut_right(canvas.px(96)), "more  N", TextSize::small, Ink::quiet, Align::right);
    Box names = head.cut_left(other ? name_width : head.width());
    const Box other_head = other ? head.cut_right(head.width() / 2.0F) : Box{};
    if (other) {
        // Their kinds stand in the list below; here there is no room for them.
        const auto number = [&](std::size_t place) { return state.lesson->swings[place].index; };
        canvas.text(head, fmt::format("swing {}", number(*state.chosen)), TextSize::small, Ink::ink,
                    Align::right, TextWeight::bold);
        canvas.text(other_head, fmt::format("kept: swing {}", number(*state.compared)), TextSize::small,
                    Ink::quiet, Align::right);
    } else {
        canvas.text(names, swing_words(state, *state.chosen), TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
    }
    rest.cut_top(canvas.px(4));
    for (const Row& row : rows) {
        Box line = rest.cut_top(canvas.px(24));
        if (touch(row.name, line) == Touch::hovered) explain(row.explanation);
        canvas.text(line.cut_left(name_width), row.name, TextSize::text, Ink::quiet);
        if (other) draw_value(canvas, line.cut_right(line.width() / 2.0F), row.value(*other));
        draw_value(canvas, line, row.value(*swing));
    }
}

}  // namespace footing
