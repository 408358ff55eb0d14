#include "analysis/report/lesson_pages.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/report/legend_figure.h"
#include "analysis/report/number_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_styles.h"

namespace footing {

namespace {

using page_text::small;
using page_text::small_quiet;

constexpr double row_height = 24.0;
constexpr double name_width = 104.0;     // of a fact
constexpr std::size_t most_value = 200;  // characters of a fact

struct PageColumn {
    const char* name;
    double width;
};
constexpr PageColumn table_columns[] = {{"swing", 48.0},          {"kind", 66.0},   {"address, %", 96.0},
                                        {"turnaround, %", 104.0}, {"top, %", 88.0}, {"impact, %", 96.0},
                                        {"finish, %", 96.0},      {"tempo", 56.0}};

void draw_table_head(PageFlow& flow) {
    double x = flow.left();
    for (const PageColumn& column : table_columns) {
        flow.canvas().cell({x, flow.y() + 14.0}, column.width, column.name, small_quiet);
        x += column.width;
    }
    flow.skip(row_height);
    flow.rule(Ink::ink, flow.left(), flow.left() + flow.width());
}

void draw_share(PageFlow& flow, double x, double width, const std::optional<ShareValue>& share) {
    const double baseline = flow.y() + 16.0;
    if (!share) {
        flow.canvas().cell({x + 16.0, baseline}, width - 16.0, "–", small_quiet);
        return;
    }
    flow.canvas().draw(FigureMark{{x + 6.0, baseline - 4.5}, mark_of(share->verdict), 5.0, Ink::ink});
    flow.canvas().cell({x + 16.0, baseline}, width - 16.0, share_numbers(*share), small);
}

}  // namespace

double facts_height(PageFlow& flow, std::span<const Fact> facts) {
    double height = 0.0;
    for (const Fact& fact : facts) {
        height += flow.canvas().paragraph_height(flow.width() - name_width,
                                                 clean_text(fact.value, most_value), small) +
                  6.0;
    }
    return height;
}

void draw_facts(PageFlow& flow, std::span<const Fact> facts) {
    Canvas& canvas = flow.canvas();
    for (const Fact& fact : facts) {
        const std::string value = clean_text(fact.value, most_value);
        const double height = canvas.paragraph_height(flow.width() - name_width, value, small);
        flow.need(height);
        canvas.paragraph({flow.left(), flow.y()}, name_width, fact.name, small_quiet);
        canvas.paragraph({flow.left() + name_width, flow.y()}, flow.width() - name_width, value, small);
        flow.skip(height + 6.0);
    }
}

namespace {

/// The pictures that show all swings: each so many at most, as a page holds; the rows of each alike.
struct OverviewShape {
    static constexpr double head = 72.0;
    static constexpr double lowest_row = 13.0;
    static constexpr double highest_row = 24.0;
    std::size_t rows_a_picture = 0;

    explicit OverviewShape(std::size_t swings) {
        constexpr std::size_t most_rows = 48;
        const std::size_t pictures = (swings + most_rows - 1) / most_rows;
        rows_a_picture = (swings + pictures - 1) / pictures;
    }
};

}  // namespace

double overview_height(const PageFlow& flow, const LessonResult& lesson) {
    const OverviewShape shape(lesson.swings.size());
    return legend_figure(flow.width()).height + 8.0 + OverviewShape::head +
           static_cast<double>(shape.rows_a_picture) * OverviewShape::lowest_row + 8.0;
}

void draw_overview(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty() || !has_shares(lesson)) return;
    flow.figure(legend_figure(flow.width()));  // where the marks first stand
    flow.skip(8.0);
    constexpr double below = 8.0;
    const std::size_t count = lesson.swings.size();
    const std::size_t rows_a_picture = OverviewShape(count).rows_a_picture;
    for (std::size_t from = 0; from < count; from += rows_a_picture) {
        const std::size_t to = std::min(from + rows_a_picture, count);
        SwingFigureOptions options;
        options.width = flow.width();
        options.edge = 0.0;
        for (std::size_t i = from; i < to; ++i) options.swings.push_back(i);
        const auto rows = static_cast<double>(to - from);
        if (flow.room() < OverviewShape::head + rows * OverviewShape::lowest_row + below) flow.next_page();
        options.height =
            OverviewShape::head +
            rows * std::min(OverviewShape::highest_row, (flow.room() - OverviewShape::head - below) / rows);
        flow.figure(options.height, [&] { return lesson_figure(lesson, options); });
        flow.skip(below);
    }
}

void draw_swing_table(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty() || !has_shares(lesson)) return;
    // On one page where one holds it; else from here on.
    const Figure legend = legend_figure(flow.width());
    const double marks =
        legend.height + flow.canvas().paragraph_height(flow.width(), finish_mark_words(), small_quiet) + 12.0;
    const double table =
        heading_height - 40.0 + marks + row_height * (static_cast<double>(lesson.swings.size()) + 1.0);
    flow.heading("The swings in numbers", table + 40.0 <= flow.page_room() ? table : 8.0 * row_height);
    flow.figure(legend);
    flow.paragraph(finish_mark_words(), small_quiet);
    flow.skip(4.0);
    draw_table_head(flow);
    std::size_t left = lesson.swings.size();
    for (const Swing& swing : lesson.swings) {
        // No row stands alone on the next page.
        if (flow.need(left == 2 ? 2.0 * row_height : row_height)) draw_table_head(flow);
        --left;
        double x = flow.left();
        const double baseline = flow.y() + 16.0;
        const auto next = [&](std::size_t column) { x += table_columns[column].width; };
        flow.canvas().cell({x, baseline}, table_columns[0].width, fmt::format("{}", swing.index), small);
        next(0);
        flow.canvas().cell({x, baseline}, table_columns[1].width,
                           swing.kind == SwingKind::unknown ? "–" : kind_name(swing.kind), small_quiet);
        next(1);
        std::size_t column = 2;
        for (const auto* share :
             {&swing.lead_share.address, &swing.lead_share.turnaround, &swing.lead_share.top,
              &swing.lead_share.impact, &swing.lead_share.finish}) {
            draw_share(flow, x, table_columns[column].width, *share);
            next(column++);
        }
        flow.canvas().cell({x, baseline}, table_columns[column].width,
                           swing.tempo ? ratio_words(swing.tempo->ratio) : "–", small);
        flow.skip(row_height);
        flow.rule(Ink::grid, flow.left(), flow.left() + flow.width());
    }
    flow.skip(40.0);
}

void draw_together(PageFlow& flow, const LessonResult& lesson, std::span<const std::size_t> left_out) {
    const SwingSet set =
        swing_set(lesson.trace, lesson.facts.hand, lesson.swings, SetKind::counted, left_out);
    if (!set.together) return;
    constexpr double highest = 400.0;
    constexpr double lowest = 320.0;
    const std::vector<std::string> sentences = set_words(lesson, set);
    double words = 8.0;
    for (const std::string& sentence : sentences)
        words += flow.canvas().paragraph_height(flow.width(), sentence, small_quiet) + 8.0;
    flow.heading("Laid over each other", heading_height - 40.0 + lowest + words);
    const double height = std::clamp(flow.room() - words, lowest, highest);
    flow.figure(height, [&] { return set_figure(lesson, set, flow.width(), height); });
    flow.skip(8.0);
    for (const std::string& sentence : sentences) flow.paragraph(sentence, small_quiet);
    flow.skip(32.0);
}

double cautions_height(const PageFlow& flow, const std::vector<std::string>& sentences) {
    return heading_height + flow.list_height(sentences, small);
}

void draw_cautions(PageFlow& flow, const std::vector<std::string>& sentences) {
    flow.heading("Take care", cautions_height(flow, sentences) - heading_height);
    flow.list(sentences, small);
}

}  // namespace footing
