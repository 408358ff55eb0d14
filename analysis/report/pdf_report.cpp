#include "analysis/report/pdf_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <vector>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/legend_figure.h"
#include "analysis/report/lesson_pages.h"
#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/page_flow.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_styles.h"

namespace footing {

namespace {

using page_text::small;
using page_text::small_bold;
using page_text::small_quiet;

constexpr TextStyle body{TextSize::text};
constexpr double row_height = 24.0;
constexpr std::size_t most_title = 80;      // characters of a name on the page
constexpr std::size_t most_in_footer = 48;  // and where the date stands beside it

void draw_headline(PageFlow& flow, const LessonResult& lesson) {
    const auto head = headline(lesson);
    if (!head) return;
    Canvas& canvas = flow.canvas();
    flow.need(120.0);
    const TextStyle big{TextSize::figure, TextWeight::bold};
    const std::string figure = fmt::format("{} of {}", head->inside, head->counted);
    const double baseline = flow.y() + 80.0;
    canvas.cell({flow.left(), baseline}, flow.width(), figure, big);
    const double beside = canvas.line_width(figure, big) + 24.0;
    const double room = flow.width() - beside;
    const double height = canvas.paragraph_height(room, head->of_what, body);
    canvas.paragraph({flow.left() + beside, baseline - height + 4.0}, room, head->of_what, body);
    flow.skip(112.0);
}

double list_height(const Canvas& canvas, double width, const std::vector<std::string>& sentences) {
    double height = 32.0;
    for (const std::string& sentence : sentences)
        height += canvas.paragraph_height(width - 16.0, sentence, small) + 8.0;
    return height;
}

void draw_column(Canvas& canvas, FigurePoint at, double width, const char* name,
                 const std::vector<std::string>& sentences) {
    canvas.paragraph(at, width, name, {TextSize::text, TextWeight::bold});
    double y = at.y + 32.0;
    for (const std::string& sentence : sentences) {
        canvas.paragraph({at.x, y}, 16.0, "–", small);
        y += canvas.paragraph({at.x + 16.0, y}, width - 16.0, sentence, small) + 8.0;
    }
}

/// What to keep on the left, what to change on the right; what there is to know under both.
void draw_words(PageFlow& flow, const PlainWords& words) {
    Canvas& canvas = flow.canvas();
    constexpr double gap = 32.0;
    const bool both = !words.keep.empty() && !words.change.empty();
    const double width = both ? 0.5 * (flow.width() - gap) : flow.width();
    if (!words.keep.empty() || !words.change.empty()) {
        const double keep = words.keep.empty() ? 0.0 : list_height(canvas, width, words.keep);
        const double change = words.change.empty() ? 0.0 : list_height(canvas, width, words.change);
        flow.need(std::max(keep, change));
        double x = flow.left();
        if (!words.keep.empty()) {
            draw_column(canvas, {x, flow.y()}, width, "Keep", words.keep);
            x += width + gap;
        }
        if (!words.change.empty()) draw_column(canvas, {x, flow.y()}, width, "Change", words.change);
        flow.skip(std::max(keep, change) + 8.0);
    }
    if (!words.notes.empty()) {
        const double height = list_height(canvas, flow.width(), words.notes);
        flow.need(height);
        draw_column(canvas, {flow.left(), flow.y()}, flow.width(), "To know", words.notes);
        flow.skip(height + 8.0);
    }
}

void draw_first_page(PageFlow& flow, const LessonResult& lesson) {
    Canvas& canvas = flow.canvas();
    canvas.bookmark("The lesson");
    flow.paragraph("Footing · lesson report", small_quiet);
    flow.paragraph(clean_text(report_title(lesson), most_title), {TextSize::heading, TextWeight::bold});
    flow.skip(8.0);
    draw_facts(flow, lesson_facts(lesson));
    flow.skip(16.0);
    draw_headline(flow, lesson);
    draw_words(flow, plain_words(lesson));
    flow.skip(8.0);
}

/// At a glance, below the words where the page has room for it, else under a heading of its own.
void draw_all_swings(PageFlow& flow, const LessonResult& lesson, ReportForm form) {
    if (lesson.swings.empty() || !has_shares(lesson)) return;
    if (flow.room() < overview_height(flow, lesson)) {
        flow.next_page();
        flow.heading("All swings at a glance", 0.0);
    }
    draw_overview(flow, lesson);
    flow.skip(32.0);
    if (form == ReportForm::full) draw_swing_table(flow, lesson);
    draw_together(flow, lesson);
}

/// Facts side by side from `top` on, each its name over its value, in as many lines as the page's width asks
/// for. Gives the height that they take.
/// The room between facts: a little less than usual where that keeps all of them in one row.
double gap_between(PageFlow& flow, const std::vector<double>& widths) {
    constexpr double usual = 16.0;
    constexpr double least = 9.0;
    if (widths.size() < 2) return usual;
    const double left = flow.width() - std::accumulate(widths.begin(), widths.end(), 0.0);
    const double gap = left / static_cast<double>(widths.size() - 1);
    return gap < least ? usual : std::min(usual, gap);
}

double draw_swing_facts(PageFlow& flow, const std::vector<Fact>& facts, double top) {
    constexpr double line_height = 44.0;
    Canvas& canvas = flow.canvas();
    std::vector<double> widths;
    for (const Fact& fact : facts) {
        const double needed = 2.0 + std::max(canvas.line_width(fact.name, small_quiet),
                                             canvas.line_width(fact.value, small_bold));
        widths.push_back(std::min(needed, flow.width()));
    }
    const double gap = gap_between(flow, widths);
    constexpr double rounding = 0.01;
    double x = 0.0;
    double y = top;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const Fact& fact = facts[i];
        const double width = widths[i];
        if (x > 0.0 && x + width > flow.width() + rounding) {
            x = 0.0;
            y += line_height;
        }
        canvas.cell({flow.left() + x, y}, width, fact.name, small_quiet);
        canvas.cell({flow.left() + x, y + 20.0}, width, fact.value, small_bold);
        x += width + gap;
    }
    return facts.empty() ? 0.0 : y - top + line_height;
}

void draw_swing(PageFlow& flow, const LessonResult& lesson, std::size_t place, double height) {
    Canvas& canvas = flow.canvas();
    const Swing& swing = lesson.swings[place];
    const double top = flow.y();
    canvas.bookmark(swing_title(swing));
    canvas.paragraph({flow.left(), top}, flow.width(), swing_title(swing),
                     {TextSize::heading, TextWeight::bold});
    constexpr double facts_top = 56.0;
    const double figure_top =
        facts_top - 4.0 + draw_swing_facts(flow, swing_facts(swing, lesson.facts.hand), top + facts_top);
    SwingFigureOptions options;
    options.width = flow.width();
    options.height = height - figure_top;
    options.edge = 0.0;
    options.swings = {place};
    canvas.draw_made([&] { return evidence_figure(lesson, options, lesson.band); },
                     {flow.left(), top + figure_top});
    flow.skip(height);
}

void draw_swings(PageFlow& flow, const LessonResult& lesson) {
    // Two a page, whatever the paper.
    constexpr double between = 32.0;
    constexpr double tallest = 464.0;
    const double swing_height = std::min(tallest, 0.5 * (flow.page_room() - between));
    for (std::size_t i = 0; i < lesson.swings.size(); ++i) {
        if (i % 2 == 0) {
            flow.next_page();
        } else {
            flow.skip(between);
        }
        draw_swing(flow, lesson, i, swing_height);
    }
}

/// Columns of a table that stand beside each other, [from, to), led by the first of all.
struct ColumnBlock {
    std::size_t from = 0;
    std::size_t to = 0;
};

/// Columns as wide as what stands in them, a little closer where that puts all of them beside each other.
std::vector<double> column_widths(PageFlow& flow, const MoreNumbers& numbers) {
    constexpr double least_gap = 7.0;
    constexpr double usual_gap = 14.0;
    std::vector<double> widths;
    double all = 0.0;
    for (std::size_t column = 0; column < numbers.names.size(); ++column) {
        double width = flow.canvas().line_width(numbers.names[column], small_quiet);
        for (const auto& row : numbers.rows)
            width = std::max(width, flow.canvas().line_width(row[column], small));
        widths.push_back(width);
        all += width;
    }
    constexpr double spare = 1.0;  // so that rounding does not part what just fits
    const double gap =
        (flow.width() - spare - all) / static_cast<double>(std::max<std::size_t>(1, widths.size()));
    for (double& width : widths) width += gap < least_gap ? usual_gap : std::min(gap, usual_gap);
    return widths;
}

/// As many columns side by side as the page is wide; the rest in a block below.
std::vector<ColumnBlock> column_blocks(const std::vector<double>& widths, double page_width) {
    std::vector<ColumnBlock> blocks;
    double used = 0.0;
    for (std::size_t column = 1; column < widths.size(); ++column) {
        if (blocks.empty() || used + widths[column] > page_width) {
            blocks.push_back({column, column});
            used = widths.front();
        }
        blocks.back().to = column + 1;
        used += widths[column];
    }
    return blocks;
}

void draw_block(PageFlow& flow, const MoreNumbers& numbers, const std::vector<double>& widths,
                const ColumnBlock& block) {
    Canvas& canvas = flow.canvas();
    const auto draw_row = [&](const std::vector<std::string>& cells, double baseline,
                              const TextStyle& style) {
        double x = flow.left();
        canvas.cell({x, baseline}, widths.front(), cells.front(), style);
        x += widths.front();
        for (std::size_t column = block.from; column < block.to; ++column) {
            canvas.cell({x, baseline}, widths[column], cells[column], style);
            x += widths[column];
        }
    };
    const auto draw_head = [&] {
        draw_row(numbers.names, flow.y() + 14.0, small_quiet);
        flow.skip(row_height);
        flow.rule(Ink::ink, flow.left(), flow.left() + flow.width());
    };
    draw_head();
    for (const auto& row : numbers.rows) {
        if (flow.need(row_height)) draw_head();
        draw_row(row, flow.y() + 16.0, small);
        flow.skip(row_height);
        flow.rule(Ink::grid, flow.left(), flow.left() + flow.width());
    }
    flow.skip(16.0);
}

/// The other teaching numbers, for who wants the evidence, with what they mean.
void draw_more_numbers(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty()) return;
    const MoreNumbers numbers = more_numbers(lesson);
    const std::vector<double> widths = column_widths(flow, numbers);
    const std::vector<ColumnBlock> blocks = column_blocks(widths, flow.width());
    // On one page where one holds all of it; else no table that a page can hold is parted between two.
    const double table = row_height * static_cast<double>(numbers.rows.size() + 1);
    double all = static_cast<double>(blocks.size()) * (table + 16.0);
    double notes = 0.0;
    for (const std::string& note : numbers.notes)
        notes += flow.canvas().paragraph_height(flow.width(), note, small_quiet) + 8.0;
    all += notes;
    const double together = table < flow.page_room() - 128.0 ? table : 3.0 * row_height;
    flow.heading("More numbers", all + heading_height <= flow.page_room() ? all : together);
    for (const ColumnBlock& block : blocks) {
        flow.need(together);
        draw_block(flow, numbers, widths, block);
    }
    flow.need(std::min(notes, flow.page_room()));  // no last lines of them alone on a page
    for (const std::string& note : numbers.notes) flow.paragraph(note, small_quiet);
    flow.skip(32.0);
}

void draw_closing(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty()) flow.skip(40.0);
    // Reading and care stay together where a page holds both, so that no page begins with the last of them.
    double height = 0.0;
    for (const std::string& paragraph : how_to_read(lesson))
        height += flow.canvas().paragraph_height(flow.width(), paragraph, small) + 8.0;
    const Figure legend = legend_figure(flow.width());
    height += 8.0 + legend.height + 32.0 + cautions_height(flow, cautions());
    flow.heading("How to read it", height + heading_height <= flow.page_room() ? height : 80.0);
    for (const std::string& paragraph : how_to_read(lesson)) flow.paragraph(paragraph, small);
    flow.skip(8.0);
    flow.figure(legend);
    flow.skip(32.0);
    draw_cautions(flow, cautions());
}

/// Draws the whole report; gives the number of pages.
int draw_report(Canvas& canvas, const Paper& paper, const LessonResult& lesson, ReportForm form, int pages) {
    std::string running = clean_text(report_title(lesson), most_in_footer);
    if (!lesson.facts.started.empty()) running += " · " + clean_text(lesson.facts.started.substr(0, 10));
    PageFlow flow(canvas, paper, running, pages);
    draw_first_page(flow, lesson);
    draw_all_swings(flow, lesson, form);
    if (form == ReportForm::full) {
        draw_swings(flow, lesson);
        if (!lesson.swings.empty()) flow.next_page();
        draw_more_numbers(flow, lesson);
    }
    draw_closing(flow, lesson);
    flow.close();
    return flow.page();
}

}  // namespace

Result<std::string> pdf_report(const LessonResult& lesson, PaperSize size, ReportForm form) {
    const DocumentFacts facts{"Lesson report: " + clean_text(report_title(lesson), most_title),
                              "Lead share at address, top and impact", iso_start(lesson)};
    const Paper paper = sheet_of(size, 64.0);
    Canvas trial = Canvas::measure();  // how many pages there are
    const int pages = draw_report(trial, paper, lesson, form, 0);
    Canvas canvas = Canvas::pdf(paper.width, paper.height, facts);
    draw_report(canvas, paper, lesson, form, pages);
    return canvas.finish();
}

}  // namespace footing
