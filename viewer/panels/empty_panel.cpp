#include <algorithm>
#include <array>
#include <cmath>

#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

struct Step {
    const char* what;
    const char* how;
    const char* words;  ///< to type
};

constexpr std::array<Step, 3> steps{{
    {"Open a recording", "Drop its file onto this window, or start with", "footing view lesson.h5"},
    {"Make a recording", "Plates level, switched on, nobody on them; then",
     "footing record --udp 0.0.0.0:9750 --out lesson.h5"},
    {"No plates at hand", "Let a simulated golfer send what plates would, while you record",
     "footing emulate --udp 127.0.0.1:9750 --plates"},
}};

}  // namespace

void draw_empty(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                std::vector<ViewAction>& asked) {
    canvas.enter("empty");
    const float width = std::min(canvas.px(760), window.width() - canvas.px(48));
    const float height = canvas.px(state.problem ? 504 : 392);
    Box rest{window.middle_x() - width / 2.0F, window.middle_y() - height / 2.0F,
             window.middle_x() + width / 2.0F, window.middle_y() + height / 2.0F};

    // The idea in one stroke: weight goes back, then to the target, while time runs down.
    Box picture = rest.cut_left(canvas.px(136));
    const float band_left = picture.left + canvas.px(80);
    canvas.fill({band_left, picture.top, band_left + canvas.px(24), picture.bottom}, Ink::band);
    const float x = picture.left;
    const float y = picture.top;
    canvas.list().PathLineTo({x + canvas.px(88), y + canvas.px(8)});
    canvas.list().PathBezierCubicCurveTo({x + canvas.px(88), y + canvas.px(160)},
                                         {x + canvas.px(16), y + canvas.px(120)},
                                         {x + canvas.px(24), y + canvas.px(216)}, 48);
    canvas.list().PathBezierCubicCurveTo({x + canvas.px(30), y + canvas.px(280)},
                                         {x + canvas.px(96), y + canvas.px(272)},
                                         {x + canvas.px(96), y + canvas.px(384)}, 48);
    canvas.list().PathStroke(canvas.colour(Ink::lead), ImDrawFlags_None, 2.0F * canvas.scale());
    canvas.mark({x + canvas.px(96), y + canvas.px(384)}, MarkShape::dot, 5.0F, Ink::lead);

    if (!state.opening.empty()) {
        draw_reading(canvas, rest.cut_top(canvas.px(56)), state, asked);
        return;
    }
    canvas.text(rest.cut_top(canvas.px(32)), "Where a golfer's weight is, swing by swing", TextSize::heading,
                Ink::ink, Align::left, TextWeight::bold);
    canvas.text(rest.cut_top(canvas.px(24)),
                "Lead-foot share at address, top and impact, against the band you ask for.", TextSize::text,
                Ink::quiet);
    rest.cut_top(canvas.px(24));
    if (state.problem) {
        Box trouble = rest.cut_top(canvas.px(88));
        canvas.fill({trouble.left, trouble.top, trouble.left + canvas.px(3), trouble.bottom}, Ink::ink);
        trouble.cut_left(canvas.px(16));
        canvas.text(trouble.cut_top(canvas.px(24)), "That file did not open", TextSize::text, Ink::ink,
                    Align::left, TextWeight::bold);
        canvas.paragraph(trouble, sentence(*state.problem), TextSize::text, Ink::ink);
        rest.cut_top(canvas.px(24));
    }
    for (const Step& step : steps) {
        canvas.text(rest.cut_top(canvas.px(24)), step.what, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(rest.cut_top(canvas.px(24)), step.how, TextSize::text, Ink::quiet);
        canvas.text(rest.cut_top(canvas.px(24)), step.words, TextSize::text, Ink::lead);
        rest.cut_top(canvas.px(16));
    }
    canvas.text(rest.cut_top(canvas.px(24)),
                state.recent.empty() ? "? lists the keys"
                                     : "Ctrl O lists what was opened before  ·  ? lists the keys",
                TextSize::small, Ink::quiet);
}

float problem_height(const ScreenCanvas& canvas, float width, const ViewState& state) {
    const float length = canvas.text_width(one_line(sentence(*state.problem)), TextSize::text);
    const float lines = std::clamp(std::ceil(1.1F * length / (width - canvas.px(16))), 1.0F, 4.0F);
    const float line_height = std::round(canvas.text_height(TextSize::text) * 1.5F);  // as paragraph() has it
    return canvas.px(24) + lines * line_height;
}

void draw_problem(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked) {
    canvas.enter("problem");
    if (touch("problem", box) == Touch::pressed) asked.push_back(CloseOverlay{});
    canvas.fill({box.left, box.top, box.left + canvas.px(3), box.bottom}, Ink::ink);
    box.cut_left(canvas.px(16));
    Box head = box.cut_top(canvas.px(24));
    canvas.text(head.cut_right(canvas.px(160)), "Esc puts this away", TextSize::small, Ink::quiet,
                Align::right);
    canvas.text(head, "That did not work", TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    canvas.paragraph(box, sentence(*state.problem), TextSize::text, Ink::ink);
}

}  // namespace footing
