#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "viewer/panels/book_panels.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

struct PathParts {
    std::string name;
    std::string folder;
};

PathParts parts_of(const std::string& path) {
    const std::size_t slash = path.find_last_of('/');
    if (slash == std::string::npos) return {path, ""};
    return {path.substr(slash + 1), path.substr(0, std::max<std::size_t>(slash, 1))};
}

}  // namespace

void draw_recent(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                 std::vector<ViewAction>& asked) {
    canvas.enter("recent");
    const float width = std::min(canvas.px(880), window.width() - canvas.px(48));
    Box rest{window.middle_x() - width / 2.0F, window.top + canvas.px(64), window.middle_x() + width / 2.0F,
             window.bottom - canvas.px(32)};
    canvas.text(rest.cut_top(canvas.px(32)), "Opened before", TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    canvas.text(rest.cut_top(canvas.px(24)),
                state.recent.empty()
                    ? "Nothing yet. Drop a recording, a table (CSV) or a C3D file onto this window."
                    : "Enter opens the marked one, Esc goes back; or drop a recording, a CSV or a C3D file.",
                TextSize::text, Ink::quiet);
    rest.cut_top(canvas.px(16));
    for (std::size_t place = 0; place < state.recent.size() && rest.height() > canvas.px(48); ++place) {
        Box row = rest.cut_top(canvas.px(48));
        const Touch found = touch(static_cast<int>(place), row);
        if (found == Touch::pressed) asked.push_back(OpenRecent{place});
        if (place == state.recent_row) {
            canvas.fill(row, Ink::band, 1.0, 4.0F);
            canvas.fill(
                {row.left, row.top + canvas.px(6), row.left + canvas.px(3), row.bottom - canvas.px(6)},
                Ink::ink);
        } else if (found == Touch::hovered) {
            canvas.fill(row, Ink::band, 0.5, 4.0F);
        }
        const PathParts parts = parts_of(state.recent[place]);
        Box words = row.inset(canvas.px(16), canvas.px(2));
        canvas.text(words.cut_top(canvas.px(24)), parts.name, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(words, parts.folder, TextSize::small, Ink::quiet);
    }
}

void draw_reading(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked) {
    canvas.enter("reading");
    if (touch("reading", box) == Touch::pressed) asked.push_back(StopOpening{});
    canvas.fill(box, Ink::band, 1.0, 4.0F);
    Box bar = box.inset(canvas.px(16), 0.0F);
    bar = {bar.left, box.bottom - canvas.px(12), bar.right, box.bottom - canvas.px(8)};
    canvas.fill(bar, Ink::grid);
    const float part = std::clamp(static_cast<float>(state.opening_part), 0.0F, 1.0F);
    canvas.fill({bar.left, bar.top, bar.left + part * bar.width(), bar.bottom}, Ink::ink);
    Box words = box.inset(canvas.px(16), canvas.px(8));
    words.bottom = bar.top - canvas.px(4);
    Box give_up = words.cut_right(canvas.px(112));
    canvas.text(give_up, "Esc gives up", TextSize::small, Ink::quiet, Align::right);
    const std::string done = part > 0.0F ? fmt::format("{:.0f} %  ·  ", 100.0F * part) : "";
    canvas.text(words, "Reading  ·  " + done + parts_of(state.opening).name, TextSize::text, Ink::ink,
                Align::left, TextWeight::bold);
}

}  // namespace footing
