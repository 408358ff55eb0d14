#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <string>
#include <vector>

#include "analysis/report/progress_figure.h"
#include "viewer/book/student_progress.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/figure_painter.h"
#include "viewer/panels/progress_lines.h"

namespace footing {

namespace {

constexpr float between_px = 12.0F;
constexpr float before_part_px = 16.0F;

/// A heading that is not the first.
bool begins_part(const std::vector<ProgressLine>& lines, std::size_t at) {
    return at > 0 && lines[at].weight == TextWeight::bold;
}

std::vector<float> heights_of(const ScreenCanvas& canvas, const std::vector<ProgressLine>& lines,
                              float width) {
    std::vector<float> heights;
    for (const ProgressLine& line : lines) {
        // As ScreenCanvas::paragraph() sets lines.
        const float a_line = std::round(canvas.text_height(line.size) * 1.5F);
        const std::size_t count = canvas.lines_of(line.words, width, line.size, line.weight).size();
        heights.push_back(a_line * static_cast<float>(count) + canvas.px(between_px));
        if (begins_part(lines, heights.size() - 1)) heights.back() += canvas.px(before_part_px);
    }
    return heights;
}

float sum_from(const std::vector<float>& heights, std::size_t first) {
    return std::accumulate(heights.begin() + static_cast<std::ptrdiff_t>(first), heights.end(), 0.0F);
}

/// What to practise in smaller letters, until all of it has room.
void fit_advice(const ScreenCanvas& canvas, std::vector<ProgressLine>& lines, const Box& box) {
    using About = ProgressLine::About;
    const auto after =
        std::ranges::find(lines.rbegin(), lines.rend(), About::advice, &ProgressLine::about).base();
    for (const TextSize smaller : {TextSize::text, TextSize::small}) {
        const std::vector<ProgressLine> advice(lines.begin(), after);
        if (sum_from(heights_of(canvas, advice, box.width()), 0) <= box.height()) return;
        for (ProgressLine& line : lines) {
            if (line.about == About::advice) line.size = std::min(line.size, smaller);
        }
    }
}

/// All that stands beside the figure; what the box has no room for is reached by ↑ and ↓, from the paragraph
/// `wanted` on.
void draw_words(ScreenCanvas& canvas, Box box, std::vector<ProgressLine> lines, std::size_t wanted) {
    fit_advice(canvas, lines, {box.left, box.top, box.right, box.bottom - canvas.px(24)});
    const std::vector<float> heights = heights_of(canvas, lines, box.width());
    std::size_t first = 0;
    const bool all = sum_from(heights, 0) - canvas.px(between_px) <= box.height();
    if (!all) {
        const Box foot = box.cut_bottom(canvas.px(24));
        while (first < wanted && sum_from(heights, first) > box.height()) ++first;
        canvas.text(foot, sum_from(heights, first) > box.height() ? "↓ more" : "↑ back", TextSize::small,
                    Ink::ink, Align::left, TextWeight::bold);
    }
    for (std::size_t at = first; at < lines.size(); ++at) {
        // Below the last one nothing has to be free.
        if (at > first && heights[at] - canvas.px(between_px) > box.height() + 1.0F) return;
        Box place = box.cut_top(heights[at]);
        if (begins_part(lines, at)) {
            if (at > first) canvas.line({place.left, place.top}, {place.right, place.top}, Ink::grid);
            place.cut_top(canvas.px(before_part_px));
        }
        canvas.paragraph(place, lines[at].words, lines[at].size, lines[at].ink, lines[at].weight);
    }
}

/// Why there are no lines yet.
std::string without_figure_words(std::size_t lessons) {
    if (lessons == 1) return "One lesson so far. From the second one on, each measure has a line here.";
    return fmt::format(
        "{} lessons so far, but no measure is known in two of them. A measure counts in a lesson "
        "that has {} swings or more with it.",
        lessons, fewest_shots_a_lesson);
}

}  // namespace

void draw_progress_page(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    const BookDesk& book = *state.book;
    const Student* student = chosen_student(book);
    const bool any = student && book.facts->progress && !book.facts->progress->lessons.empty();
    if (!any) {
        return draw_purpose(
            canvas, box, "What has changed, and what to practise next",
            student ? "Each lesson adds a point to each measure: weight at address, tempo, rhythm, spread of "
                      "carry. From six lessons on, this page says which change is real and which is chance."
                    : "Choose a student on the first page; then their lessons stand here side by side, and "
                      "what to practise next.");
    }
    const StudentProgress& progress = *book.facts->progress;
    Box rest = box;
    Box words = rest.cut_left(std::min(canvas.px(440), box.width() * 0.4F));
    rest.cut_left(canvas.px(32));
    draw_words(canvas, words, progress_lines(book), book.row);
    if (!has_progress_figure(progress.series)) {
        canvas.paragraph(rest, without_figure_words(progress.lessons.size()), TextSize::text, Ink::quiet);
        return;
    }
    const auto scale = static_cast<double>(canvas.scale());
    paint_figure(canvas,
                 progress_figure(progress.series, progress.dates(), static_cast<double>(rest.width()) / scale,
                                 static_cast<double>(rest.height()) / scale),
                 {rest.left, rest.top});
}

}  // namespace footing
