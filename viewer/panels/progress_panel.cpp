#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "analysis/report/progress_figure.h"
#include "viewer/book/student_progress.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/figure_painter.h"

namespace footing {

namespace {

/// Paragraphs from the top of the box for as long as there is room; what is left of the box.
Box draw_sentences(ScreenCanvas& canvas, Box box, const std::vector<std::string>& sentences, TextSize size,
                   Ink ink) {
    for (const std::string& words : sentences) {
        if (box.height() < canvas.px(size == TextSize::heading ? 104 : 88)) return box;
        box.top = canvas.paragraph(box, words, size, ink) + canvas.px(12);
    }
    return box;
}

void draw_heading(ScreenCanvas& canvas, Box& box, const char* words) {
    canvas.text(box.cut_top(canvas.px(40)), words, TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
}

/// A lesson that asks to change many things is told in smaller letters, but whole.
TextSize advice_size(std::size_t sentences) {
    if (sentences <= most_advice) return TextSize::heading;
    return sentences <= most_advice + 1 ? TextSize::text : TextSize::small;
}

/// What to do next first: it is what the coach came for.
void draw_advice(ScreenCanvas& canvas, Box box, const StudentProgress& progress, DistanceUnit unit) {
    draw_heading(canvas, box, "What to practise next");
    std::vector<std::string> advice;
    for (const Advice& one : progress.advice) advice.push_back(one.words);
    const bool any = !advice.empty();
    if (!any) advice.push_back("The book does not hold enough, or nothing that stands out, to say so.");
    box = draw_sentences(canvas, box, advice, any ? advice_size(advice.size()) : TextSize::text,
                         any ? Ink::ink : Ink::quiet);
    if (const std::string words = finish_not_known_words(progress); !words.empty())
        box = draw_sentences(canvas, box, {words}, TextSize::small, Ink::quiet);
    box.cut_top(canvas.px(16));
    if (box.height() < canvas.px(168)) return;
    canvas.line({box.left, box.top}, {box.right, box.top}, Ink::grid);
    box.cut_top(canvas.px(16));
    canvas.text(box.cut_top(canvas.px(32)), "Does the weight explain the miss?", TextSize::text, Ink::ink,
                Align::left, TextWeight::bold);
    draw_sentences(canvas, box, weight_effect_words(progress.effects, unit), TextSize::text, Ink::quiet);
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
    draw_advice(canvas, words, progress, student->unit);
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
