#include <cmath>
#include <string>
#include <vector>

#include "viewer/panels/panels.h"

namespace footing {

namespace {

constexpr float line_height = 1.25F;  // of the face: a notice stands closer than a paragraph
constexpr float margin_px = 16.0F;
constexpr std::size_t most_lines = 3;

float height_of_line(const ScreenCanvas& canvas, TextSize size) {
    return std::round(canvas.text_height(size) * line_height);
}

std::vector<std::string> notice_lines(const ScreenCanvas& canvas, float width, const ViewState& state,
                                      TextSize size) {
    return canvas.lines_of(state.notice, width - 2.0F * canvas.px(margin_px), size);
}

}  // namespace

float notice_height(const ScreenCanvas& canvas, float width, const ViewState& state) {
    const std::size_t lines = notice_lines(canvas, width, state, TextSize::text).size();
    return canvas.px(8) +
           static_cast<float>(std::min(lines, most_lines)) * height_of_line(canvas, TextSize::text);
}

void draw_notice(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("notice");
    canvas.fill(box, Ink::band, 1.0, 4.0F);
    Box rest = box.inset(canvas.px(margin_px), 0.0F);
    TextSize size = TextSize::text;
    const auto room = [&] {
        return static_cast<std::size_t>(
            std::max(1.0F, std::floor(box.height() / height_of_line(canvas, size))));
    };
    std::vector<std::string> lines = notice_lines(canvas, box.width(), state, size);
    if (lines.size() > room()) {
        size = TextSize::small;
        lines = notice_lines(canvas, box.width(), state, size);
    }
    if (lines.size() > room()) {  // the end says where a file is, or how to take it back
        std::string last;
        for (std::size_t at = room() - 1; at < lines.size(); ++at)
            last += (last.empty() ? "" : " ") + lines[at];
        lines.resize(room() - 1);
        lines.push_back(canvas.without_middle(last, rest.width(), size));
    }
    const float height = height_of_line(canvas, size);
    rest.cut_top((box.height() - height * static_cast<float>(lines.size())) / 2.0F);
    for (const std::string& line : lines) canvas.text(rest.cut_top(height), line, size, Ink::ink);
}

}  // namespace footing
