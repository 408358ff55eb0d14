#include "analysis/report/student_front.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "analysis/report/number_words.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_styles.h"

namespace footing {

namespace {

using page_text::small;
using page_text::small_bold;
using page_text::small_quiet;
using page_text::text_bold;

constexpr TextStyle heading{TextSize::heading, TextWeight::bold};
constexpr double words_part = 0.42;  // of the page's width, beside a picture
constexpr double number_height = 50.0;

/// The one number of a thing, half as high as the largest type.
void draw_number(Canvas& canvas, FigurePoint baseline, const std::string& number) {
    Figure figure;
    figure.text_scale = 0.5;
    figure.shapes = {FigureText{{0.0, 0.0}, number, TextSize::figure, TextWeight::bold}};
    canvas.draw(figure, baseline);
}

/// Words beside a picture, or over the whole width where there is none.
enum class Beside { picture, nothing };

double words_width_of(const PageFlow& flow, Beside beside) {
    return beside == Beside::picture ? words_part * flow.width() : flow.width();
}

double thing_height(PageFlow& flow, const PlainThing& thing, Beside beside) {
    const double words_width = words_width_of(flow, beside);
    double height = 10.0 + flow.canvas().paragraph_height(words_width, thing.name, text_bold) + 4.0;
    if (!thing.number.empty()) height += number_height;
    for (const std::string& sentence : thing.sentences)
        height += flow.canvas().paragraph_height(words_width - 8.0, sentence, small) + 4.0;
    return height + 6.0;
}

void draw_thing(PageFlow& flow, const PlainThing& thing, const Figure& picture, double height) {
    Canvas& canvas = flow.canvas();
    const double words_width =
        words_width_of(flow, picture.shapes.empty() ? Beside::nothing : Beside::picture);
    const double top = flow.y();
    canvas.draw(FigureLine{{{flow.left(), top}, {flow.left() + flow.width(), top}}, Ink::ink, 1.0});
    double y = top + 10.0;
    y += canvas.paragraph({flow.left(), y}, words_width, thing.name, text_bold) + 4.0;
    if (!thing.number.empty()) {
        draw_number(canvas, {flow.left(), y + 38.0}, thing.number);
        y += number_height;
    }
    for (const std::string& sentence : thing.sentences)
        y += canvas.paragraph({flow.left(), y}, words_width - 8.0, sentence, small) + 4.0;
    if (!picture.shapes.empty()) canvas.draw(picture, {flow.left() + words_width + 16.0, top + 12.0});
    flow.skip(height);
}

/// Between two sentences: closer where there are many, so that page one holds all of them.
double practice_gap(std::size_t sentences) {
    return sentences > most_advice ? 3.0 : 8.0;
}

double practice_height(const Canvas& canvas, const StudentReport& report, double width) {
    const std::vector<std::string> sentences = practice_sentences(report);
    double height = canvas.paragraph_height(width, "What to practise", text_bold) + 8.0;
    for (const std::string& sentence : sentences)
        height += canvas.paragraph_height(width - 20.0, sentence, small) + practice_gap(sentences.size());
    return height;
}

void draw_practice(PageFlow& flow, const StudentReport& report, double top, double width) {
    Canvas& canvas = flow.canvas();
    double y = top + canvas.paragraph({flow.left(), top}, width, "What to practise", text_bold) + 8.0;
    const std::vector<std::string> sentences = practice_sentences(report);
    for (std::size_t i = 0; i < sentences.size(); ++i) {
        if (sentences.size() > 1)
            canvas.paragraph({flow.left(), y}, 20.0, fmt::format("{}", i + 1), small_bold);
        const double indent = sentences.size() > 1 ? 20.0 : 0.0;
        y += canvas.paragraph({flow.left() + indent, y}, width - indent, sentences[i], small) +
             practice_gap(sentences.size());
    }
}

/// Whose report it is, in as many lines as the name needs.
void draw_head(PageFlow& flow, const StudentReport& report) {
    Canvas& canvas = flow.canvas();
    TextStyle right = small_quiet;
    right.align = Align::right;
    canvas.cell({flow.left() + 0.7 * flow.width(), flow.y() + 20.0}, 0.3 * flow.width(),
                "Footing · your short game", right);
    const std::string name = clean_text(report.name, most_name_on_paper);
    flow.skip(canvas.paragraph({flow.left(), flow.y()}, 0.68 * flow.width(), name, heading) + 2.0);
    flow.paragraph(period_words(report), small_quiet);
    flow.skip(4.0);
}

constexpr std::size_t thing_count = 3;
using Heights = std::array<double, thing_count>;

Figure picture_of(const StudentReport& report, std::size_t thing, double width, double height) {
    return thing == 0   ? set_up_figure(report, width, height)
           : thing == 1 ? rhythm_figure(report, width, height)
                        : wedges_figure(report, width, height);
}

/// What room is left beside `foot` goes to the lowest first, so that the things come out alike; words alone
/// need none.
Heights heights_of(PageFlow& flow, const StudentReport& report,
                   const std::array<PlainThing, thing_count>& things, double picture_width, double foot) {
    constexpr double most_height = 224.0;
    constexpr double least_height = 120.0;
    Heights heights{};
    Heights most{};
    double spare = flow.room() - foot;
    for (std::size_t i = 0; i < things.size(); ++i) {
        const bool bare = picture_of(report, i, picture_width, most_height).shapes.empty();
        heights[i] = std::max(bare ? 0.0 : least_height,
                              thing_height(flow, things[i], bare ? Beside::nothing : Beside::picture));
        most[i] = bare ? heights[i] : std::max(most_height, heights[i]);
        spare -= heights[i];
    }
    for (; spare >= 1.0; spare -= 1.0) {
        std::size_t lowest = things.size();
        for (std::size_t i = 0; i < things.size(); ++i) {
            if (heights[i] < most[i] && (lowest == things.size() || heights[i] < heights[lowest])) lowest = i;
        }
        if (lowest == things.size()) break;
        heights[lowest] += 1.0;
    }
    return heights;
}

}  // namespace

void draw_page_one(PageFlow& flow, const StudentReport& report) {
    Canvas& canvas = flow.canvas();
    canvas.bookmark("For you");
    draw_head(flow, report);
    const double practice_width = flow.width() - card_width - 32.0;
    const double foot = 20.0 + std::max(card_height + 24.0, practice_height(canvas, report, practice_width));
    const std::array<PlainThing, thing_count> things{set_up_thing(report), rhythm_thing(report),
                                                     distances_thing(report)};
    const double picture_width = (1.0 - words_part) * flow.width() - 16.0;
    const Heights heights = heights_of(flow, report, things, picture_width, foot);
    for (std::size_t i = 0; i < things.size(); ++i)
        draw_thing(flow, things[i], picture_of(report, i, picture_width, heights[i] - 24.0), heights[i]);

    if (flow.room() < foot) flow.next_page();
    canvas.draw(FigureLine{{{flow.left(), flow.y()}, {flow.left() + flow.width(), flow.y()}}, Ink::ink, 1.0});
    const double top = flow.y() + 10.0;
    draw_practice(flow, report, top, practice_width);
    const double x = flow.left() + flow.width() - card_width;
    canvas.cell({x, top + 12.0}, card_width, card_words(report) + "cut along the dashes", small_quiet);
    canvas.draw(card_figure(report), {x, top + 22.0});
    flow.skip(foot);
}

}  // namespace footing
