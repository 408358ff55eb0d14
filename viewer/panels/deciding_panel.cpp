#include "viewer/panels/deciding_panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "analysis/report/number_words.h"
#include "analysis/report/swing_figure.h"
#include "viewer/panels/share_here.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

constexpr float figure_px = 124.0F;  // as the words of the set-up
constexpr float column_px = 392.0F;

struct Deciding {
    const char* name;
    std::string figure;
    std::string beside;  ///< how sure, or what it is against
    std::optional<Verdict> verdict;
    const char* explanation;
};

Deciding share_of(const char* name, const std::optional<ShareValue>& share, const char* explanation) {
    if (!share) return {name, "–", "not known", std::nullopt, explanation};
    return {name, fmt::format("{:.0f}", share->value * 100.0), fmt::format("± {:.0f} %", 200.0 * share->u),
            share->verdict, explanation};
}

std::array<Deciding, 4> deciding(const Swing& swing) {
    Deciding tempo{"tempo", "–", "not known", std::nullopt,
                   "Time from takeaway to top, against time from top to impact."};
    if (swing.tempo) {
        tempo.figure = fmt::format("{:.1f}", swing.tempo->ratio);
        tempo.beside = "to 1";
    }
    return {share_of("address", swing.lead_share.address,
                     "Lead share while the student stands still over the ball."),
            share_of("lowest", swing.lead_share.lowest,
                     "The smallest lead share between takeaway and impact: how far the weight went back."),
            share_of("impact", swing.lead_share.impact, "Lead share when the club meets the ball."), tempo};
}

void draw_one(ScreenCanvas& canvas, Box cell, const Deciding& one) {
    if (touch(one.name, cell) == Touch::hovered) explain(one.explanation);
    Box label = cell.cut_top(canvas.px(28));
    if (one.verdict) {
        const Box mark = label.cut_left(canvas.px(24));
        canvas.mark({mark.left + canvas.px(8), mark.middle_y()}, mark_of(*one.verdict), 7.0F, Ink::ink);
    }
    const float name = canvas.text_width(one.name, TextSize::heading, TextWeight::bold) + 1.0F;
    canvas.text(label.cut_left(name), one.name, TextSize::heading, Ink::ink, Align::left, TextWeight::bold);
    label.cut_left(canvas.px(8));
    canvas.text(label, one.beside, TextSize::small, Ink::quiet);
    cell.cut_right(canvas.px(4));
    canvas.large_text(cell, one.figure, ScreenCanvas::LargeFace::words, Ink::ink);
}

}  // namespace

float deciding_width(const ScreenCanvas& canvas, const Grown& grown) {
    return std::max(canvas.px(column_px), grown.px(column_px));
}

Box draw_deciding(ScreenCanvas& canvas, Box box, const ViewState& state, const Grown& grown,
                  std::vector<ViewAction>& asked) {
    canvas.enter("deciding");
    Box head = box.cut_top(canvas.px(28));
    canvas.line({head.left, head.bottom}, {head.right, head.bottom}, Ink::grid);
    const Touch found = touch("all numbers", head);
    if (found == Touch::pressed) asked.push_back(ToggleNumbers{});
    if (found == Touch::hovered) explain("Press, or N: all numbers of this swing.");
    canvas.text(head.cut_right(canvas.px(96)), "more  N", TextSize::small, Ink::quiet, Align::right);
    canvas.text(head, swing_words(state, *state.chosen), TextSize::text, Ink::ink, Align::left,
                TextWeight::bold);
    box.cut_top(canvas.px(4));
    const std::array<Deciding, 4> all = deciding(*chosen_swing(state));
    for (std::size_t first = 0; first < all.size(); first += 2) {
        Box row = box.cut_top(canvas.px(28) + grown.px(figure_px));
        draw_one(canvas, row.cut_left(row.width() / 2.0F), all[first]);
        draw_one(canvas, row, all[first + 1]);
    }
    canvas.text(box.cut_top(canvas.px(24)), share_here_words(state), TextSize::text, Ink::quiet);
    return box;
}

}  // namespace footing
