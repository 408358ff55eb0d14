#include "viewer/panels/keys.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

void draw_keys(ScreenCanvas& canvas, const Box& window, std::vector<ViewAction>& asked) {
    canvas.enter("keys");
    if (touch("overlay", window) == Touch::pressed) asked.push_back(CloseOverlay{});
    const float row_height = canvas.px(32);
    const std::size_t rows = (key_lines().size() + 1) / 2;
    const float width = canvas.px(952);
    const float height = canvas.px(64) + static_cast<float>(rows) * row_height;
    Box rest{window.middle_x() - width / 2.0F, window.middle_y() - height / 2.0F,
             window.middle_x() + width / 2.0F, window.middle_y() + height / 2.0F};
    canvas.text(rest.cut_top(canvas.px(40)), "Keys", TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    rest.cut_top(canvas.px(24));
    Box column = rest.cut_left(canvas.px(456));
    rest.cut_left(canvas.px(40));
    for (std::size_t place = 0; place < key_lines().size(); ++place) {
        if (place == rows) column = rest;
        const KeyLine& line = key_lines()[place];
        Box row = column.cut_top(row_height);
        canvas.line({row.left, row.top}, {row.right, row.top}, Ink::grid);
        canvas.text(row.cut_left(canvas.px(120)), line.keys, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(row, line.meaning, TextSize::text, Ink::ink);
    }
}

}  // namespace footing
