#include <algorithm>
#include <string>
#include <vector>

#include "analysis/report/more_numbers.h"
#include "analysis/report/report_words.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// What the coach said in the lesson under way stands above what was found.
std::string kind_and_source(const ViewState& state, std::size_t place) {
    const bool said = state.desk && place < state.desk->labels.size() &&
                      state.desk->labels[place].word != CoachWord::not_said;
    return said ? kind_words(state, place) + ", as you said" : kind_words(state.lesson->swings[place]);
}

/// The numbers of one swing, as they stand in the column's order; the first is its kind.
std::vector<std::string> values_of(const MoreNumbers& numbers, const ViewState& state, std::size_t place) {
    std::vector<std::string> values{kind_and_source(state, place)};
    const std::vector<std::string>& row = numbers.rows[place];
    values.insert(values.end(), row.begin() + 1, row.end());
    return values;
}

void draw_notes(ScreenCanvas& canvas, Box box, const MoreNumbers& numbers) {
    canvas.text(box.cut_top(canvas.px(24)), "What they mean", TextSize::text, Ink::ink, Align::left,
                TextWeight::bold);
    for (const std::string& note : numbers.notes) {
        box.top = canvas.paragraph(box, note, TextSize::small, Ink::quiet) + canvas.px(6);
    }
}

}  // namespace

void draw_all_numbers(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                      std::vector<ViewAction>& asked) {
    canvas.enter("all numbers");
    if (touch("overlay", window) == Touch::pressed) asked.push_back(CloseOverlay{});
    Box rest = window.inset(canvas.px(48), canvas.px(32));
    Box heading = rest.cut_top(canvas.px(48));
    canvas.text(heading.cut_right(canvas.px(160)), "N or Esc: back", TextSize::small, Ink::quiet,
                Align::right);
    const Swing* swing = chosen_swing(state);
    if (!swing) {
        canvas.text(heading, "No swing is chosen", TextSize::heading, Ink::ink, Align::left,
                    TextWeight::bold);
        return;
    }
    canvas.text(heading, "All numbers", TextSize::heading, Ink::ink, Align::left, TextWeight::bold);
    const MoreNumbers numbers = more_numbers(*state.lesson);
    const Swing* other = compared_swing(state);
    const std::vector<std::string> values = values_of(numbers, state, *state.chosen);
    const std::vector<std::string> kept =
        other ? values_of(numbers, state, *state.compared) : std::vector<std::string>{};

    Box table = rest.cut_left(canvas.px(other ? 560 : 400));
    rest.cut_left(canvas.px(48));
    const float name_width = canvas.px(128);
    const auto row = [&](Box line, const std::string& name, const std::string& value,
                         const std::string& beside, TextWeight weight) {
        canvas.text(line.cut_left(name_width), name, TextSize::text, Ink::quiet);
        if (other)
            canvas.text(line.cut_right(line.width() / 2.0F), beside, TextSize::text, Ink::quiet,
                        Align::right);
        canvas.text(line, value, TextSize::text, Ink::ink, Align::right, weight);
    };
    row(table.cut_top(canvas.px(24)), "", swing_words(state, *state.chosen),
        other ? "kept: " + swing_words(state, *state.compared) : "", TextWeight::bold);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const Box line = table.cut_top(canvas.px(26));
        canvas.line({line.left, line.top}, {line.right, line.top}, Ink::grid);
        row(line, i == 0 ? "kind" : numbers.names[i], values[i], other ? kept[i] : "", TextWeight::regular);
    }
    draw_notes(canvas, rest, numbers);
}

}  // namespace footing
