#include <algorithm>
#include <cstddef>

#include "viewer/panels/keys.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

constexpr std::size_t rows_of_one_column = 12;

/// Where the list is about.
const char* screen_words(const ViewState& state) {
    if (state.book && state.front == Front::book) return page_name(state.book->page);
    if (state.lesson && state.compare && state.front == Front::compare) return "swings laid over each other";
    if (state.desk) return state.desk->showing == Showing::replay ? "the replay" : "the set-up";
    return state.lesson ? "a recording" : "nothing open";
}

}  // namespace

void draw_keys(ScreenCanvas& canvas, const Box& window, const ViewState& state,
               std::vector<ViewAction>& asked) {
    canvas.enter("keys");
    if (touch("overlay", window) == Touch::pressed) asked.push_back(CloseOverlay{});
    const std::vector<KeyLine> lines = listed_keys(state);
    const bool two_columns = lines.size() > rows_of_one_column;
    const std::size_t rows = two_columns ? (lines.size() + 1) / 2 : lines.size();
    const float row_height = std::min(canvas.px(32), (window.height() - canvas.px(96)) /
                                                         static_cast<float>(std::max<std::size_t>(rows, 1)));
    const float width = canvas.px(two_columns ? 952 : 520);
    const float height = canvas.px(64) + static_cast<float>(rows) * row_height;
    Box rest{window.middle_x() - width / 2.0F, window.middle_y() - height / 2.0F,
             window.middle_x() + width / 2.0F, window.middle_y() + height / 2.0F};
    Box head = rest.cut_top(canvas.px(40));
    canvas.text(head.cut_right(canvas.px(128)), "? or Esc: back", TextSize::small, Ink::quiet, Align::right);
    canvas.text(head, std::string("Keys: ") + screen_words(state), TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    rest.cut_top(canvas.px(24));
    Box column = rest.cut_left(canvas.px(two_columns ? 456 : 520));
    rest.cut_left(canvas.px(40));
    for (std::size_t place = 0; place < lines.size(); ++place) {
        if (place == rows) column = rest;
        const KeyLine& line = lines[place];
        Box row = column.cut_top(row_height);
        canvas.line({row.left, row.top}, {row.right, row.top}, Ink::grid);
        canvas.text(row.cut_left(canvas.px(120)), line.keys, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(row, line.meaning, TextSize::text, Ink::ink);
    }
}

}  // namespace footing
