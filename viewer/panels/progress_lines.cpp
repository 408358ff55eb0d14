#include "viewer/panels/progress_lines.h"

#include <cstddef>
#include <utility>

#include "analysis/progress/next_practice.h"
#include "analysis/progress/weight_effect.h"
#include "viewer/book/student_progress.h"
#include "viewer/panels/book_desk.h"

namespace footing {

namespace {

/// A lesson that asks to change many things is told in smaller letters, but whole.
TextSize advice_size(std::size_t sentences) {
    if (sentences <= most_advice) return TextSize::heading;
    return sentences <= most_advice + 1 ? TextSize::text : TextSize::small;
}

}  // namespace

std::vector<ProgressLine> progress_lines(const BookDesk& book) {
    const Student* student = chosen_student(book);
    if (!student || !book.facts->progress || book.facts->progress->lessons.empty()) return {};
    const StudentProgress& progress = *book.facts->progress;
    using About = ProgressLine::About;
    // What to do next first: it is what the coach came for.
    std::vector<ProgressLine> lines{
        {About::other, "What to practise next", TextSize::heading, TextWeight::bold, Ink::ink}};
    for (const Advice& one : progress.advice)
        lines.push_back(
            {About::advice, one.words, advice_size(progress.advice.size()), TextWeight::regular, Ink::ink});
    if (progress.advice.empty()) {
        lines.push_back({About::other,
                         "The book does not hold enough, or nothing that stands out, to say so.",
                         TextSize::text, TextWeight::regular, Ink::quiet});
    }
    if (std::string words = finish_not_known_words(progress); !words.empty())
        lines.push_back({About::other, std::move(words), TextSize::small, TextWeight::regular, Ink::quiet});
    lines.push_back(
        {About::other, "Does the weight explain the miss?", TextSize::text, TextWeight::bold, Ink::ink});
    for (std::string& words : weight_effect_words(progress.effects, student->unit))
        lines.push_back({About::other, std::move(words), TextSize::text, TextWeight::regular, Ink::quiet});
    return lines;
}

}  // namespace footing
