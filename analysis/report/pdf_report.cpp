#include "analysis/report/pdf_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "analysis/report/legend_figure.h"
#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/page_flow.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr TextStyle body{TextSize::text};
constexpr TextStyle small{TextSize::small};
constexpr TextStyle small_quiet{TextSize::small, TextWeight::regular, Align::left, Ink::quiet};
constexpr TextStyle small_bold{TextSize::small, TextWeight::bold};
constexpr std::size_t most_title = 80;   // characters of a name on the page
constexpr std::size_t most_value = 200;  // characters of a fact

void draw_facts(PageFlow& flow, const LessonResult& lesson) {
    constexpr double name_width = 104.0;
    Canvas& canvas = flow.canvas();
    for (const Fact& fact : lesson_facts(lesson)) {
        const std::string value = clean_text(fact.value, most_value);
        const double height = canvas.paragraph_height(PageFlow::width - name_width, value, small);
        flow.need(height);
        canvas.paragraph({flow.left(), flow.y()}, name_width, fact.name, small_quiet);
        canvas.paragraph({flow.left() + name_width, flow.y()}, PageFlow::width - name_width, value, small);
        flow.skip(height + 6.0);
    }
}

void draw_headline(PageFlow& flow, const LessonResult& lesson) {
    const auto head = headline(lesson);
    if (!head) return;
    Canvas& canvas = flow.canvas();
    flow.need(120.0);
    const TextStyle big{TextSize::figure, TextWeight::bold};
    const std::string figure = fmt::format("{} of {}", head->inside, head->counted);
    const double baseline = flow.y() + 80.0;
    canvas.cell({flow.left(), baseline}, PageFlow::width, figure, big);
    const double beside = canvas.line_width(figure, big) + 24.0;
    const double room = PageFlow::width - beside;
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

PlainWords unbroken_words(const LessonResult& lesson) {
    PlainWords words = plain_words(lesson);
    for (auto* sentences : {&words.keep, &words.change, &words.notes}) {
        for (std::string& sentence : *sentences) sentence = unbroken(sentence);
    }
    return words;
}

/// What to keep on the left, what to change on the right; what there is to know under both.
void draw_words(PageFlow& flow, const PlainWords& words) {
    Canvas& canvas = flow.canvas();
    constexpr double gap = 32.0;
    const bool both = !words.keep.empty() && !words.change.empty();
    const double width = both ? 0.5 * (PageFlow::width - gap) : PageFlow::width;
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
        const double height = list_height(canvas, PageFlow::width, words.notes);
        flow.need(height);
        draw_column(canvas, {flow.left(), flow.y()}, PageFlow::width, "To know", words.notes);
        flow.skip(height + 8.0);
    }
}

/// All swings at a glance with the legend under them, on one page as long as they are few enough.
void draw_overview(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty() || !has_shares(lesson)) return;
    constexpr std::size_t most_rows = 48;  // a picture; so many fit a page
    constexpr double head = 72.0;
    const Figure legend = legend_figure(PageFlow::width);
    const std::size_t count = lesson.swings.size();
    const std::size_t pictures = (count + most_rows - 1) / most_rows;
    const std::size_t rows_a_picture = (count + pictures - 1) / pictures;
    for (std::size_t from = 0; from < count; from += rows_a_picture) {
        const std::size_t to = std::min(from + rows_a_picture, count);
        SwingFigureOptions options;
        options.width = PageFlow::width;
        options.edge = 0.0;
        for (std::size_t i = from; i < to; ++i) options.swings.push_back(i);
        const auto rows = static_cast<double>(to - from);
        const double below = to == count ? legend.height + 8.0 : 8.0;
        if (flow.room() < head + rows * 16.0 + below) flow.next_page();
        options.height = head + rows * std::min(24.0, (flow.room() - head - below) / rows);
        flow.figure(lesson_figure(lesson, options));
        flow.skip(8.0);
    }
    flow.figure(legend);
}

void draw_first_page(PageFlow& flow, const LessonResult& lesson) {
    Canvas& canvas = flow.canvas();
    canvas.bookmark("The lesson");
    flow.paragraph("Footing · lesson report", small_quiet);
    flow.paragraph(clean_text(report_title(lesson), most_title), {TextSize::heading, TextWeight::bold});
    flow.skip(8.0);
    draw_facts(flow, lesson);
    flow.skip(16.0);
    draw_headline(flow, lesson);
    draw_words(flow, unbroken_words(lesson));
    flow.skip(8.0);
    draw_overview(flow, lesson);
}

/// Facts side by side from `top` on, each its name over its value, in as many lines as the page's width asks
/// for. Gives the height that they take.
double draw_swing_facts(PageFlow& flow, const std::vector<Fact>& facts, double top) {
    constexpr double line_height = 44.0;
    constexpr double gap = 16.0;
    Canvas& canvas = flow.canvas();
    double x = 0.0;
    double y = top;
    for (const Fact& fact : facts) {
        const double needed = 2.0 + std::max(canvas.line_width(fact.name, small_quiet),
                                             canvas.line_width(fact.value, small_bold));
        const double width = std::min(needed, PageFlow::width);
        if (x > 0.0 && x + width > PageFlow::width) {
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
    canvas.paragraph({flow.left(), top}, PageFlow::width, swing_title(swing),
                     {TextSize::heading, TextWeight::bold});
    constexpr double facts_top = 56.0;
    const double figure_top =
        facts_top - 4.0 + draw_swing_facts(flow, swing_facts(swing, lesson.facts.hand), top + facts_top);
    SwingFigureOptions options;
    options.width = PageFlow::width;
    options.height = height - figure_top;
    options.edge = 0.0;
    options.swings = {place};
    canvas.draw(swing_figure(lesson, options), {flow.left(), top + figure_top});
    flow.skip(height);
}

void draw_swings(PageFlow& flow, const LessonResult& lesson) {
    constexpr double swing_height = 464.0;  // two a page
    for (std::size_t i = 0; i < lesson.swings.size(); ++i) {
        if (i % 2 == 0) {
            flow.next_page();
        } else {
            flow.skip(32.0);
        }
        draw_swing(flow, lesson, i, swing_height);
    }
}

struct TableColumn {
    const char* name;
    double width;
};
constexpr TableColumn table_columns[] = {{"swing", 48.0},          {"kind", 66.0},   {"address, %", 96.0},
                                         {"turnaround, %", 104.0}, {"top, %", 88.0}, {"impact, %", 96.0},
                                         {"finish, %", 96.0},      {"tempo", 56.0}};
constexpr double row_height = 24.0;

void draw_table_head(PageFlow& flow) {
    double x = flow.left();
    for (const TableColumn& column : table_columns) {
        flow.canvas().cell({x, flow.y() + 14.0}, column.width, column.name, small_quiet);
        x += column.width;
    }
    flow.skip(row_height);
    flow.rule(Ink::ink, flow.left(), flow.left() + PageFlow::width);
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

void draw_table(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty()) return;
    flow.next_page();
    flow.heading("The swings in numbers", 3.0 * row_height);
    draw_table_head(flow);
    for (const Swing& swing : lesson.swings) {
        if (flow.need(row_height)) draw_table_head(flow);
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
        flow.rule(Ink::grid, flow.left(), flow.left() + PageFlow::width);
    }
    flow.skip(40.0);
}

/// The swings of one kind laid over each other; nothing for fewer than three.
void draw_together(PageFlow& flow, const LessonResult& lesson) {
    const SwingSet set = swing_set(lesson.trace, lesson.facts.hand, lesson.swings, SetKind::counted);
    if (!set.together) return;
    constexpr double height = 400.0;
    flow.heading("Laid over each other", height + 64.0);
    flow.figure(set_figure(lesson, set, PageFlow::width, height));
    flow.skip(8.0);
    for (const std::string& sentence : set_words(lesson, set)) flow.paragraph(sentence, small_quiet);
    flow.skip(32.0);
}

/// The other teaching numbers, for who wants the evidence: columns as wide as what stands in them.
void draw_more_numbers(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty()) return;
    const MoreNumbers numbers = more_numbers(lesson);
    Canvas& canvas = flow.canvas();
    std::vector<double> widths;
    for (std::size_t column = 0; column < numbers.names.size(); ++column) {
        double width = canvas.line_width(numbers.names[column], small_quiet);
        for (const auto& row : numbers.rows) width = std::max(width, canvas.line_width(row[column], small));
        widths.push_back(width + 14.0);
    }
    // As many columns side by side as the page is wide; the rest in a block below, each led by the swing's
    // number.
    for (std::size_t from = 1; from < widths.size();) {
        std::size_t to = from;
        double used = widths.front();
        while (to < widths.size() && (to == from || used + widths[to] <= PageFlow::width))
            used += widths[to++];
        const auto draw_row = [&](const std::vector<std::string>& cells, double baseline,
                                  const TextStyle& style) {
            double x = flow.left();
            canvas.cell({x, baseline}, widths.front(), cells.front(), style);
            x += widths.front();
            for (std::size_t column = from; column < to; ++column) {
                canvas.cell({x, baseline}, widths[column], cells[column], style);
                x += widths[column];
            }
        };
        const auto draw_head = [&] {
            draw_row(numbers.names, flow.y() + 14.0, small_quiet);
            flow.skip(row_height);
            flow.rule(Ink::ink, flow.left(), flow.left() + PageFlow::width);
        };
        // A table that a page can hold is not parted between two.
        const double whole = row_height * static_cast<double>(numbers.rows.size() + 1);
        const double together =
            whole < PageFlow::page_height - 4.0 * PageFlow::margin ? whole : 3.0 * row_height;
        if (from == 1) {
            flow.heading("More numbers", together);
        } else {
            flow.need(together);
        }
        draw_head();
        for (const auto& row : numbers.rows) {
            if (flow.need(row_height)) draw_head();
            draw_row(row, flow.y() + 16.0, small);
            flow.skip(row_height);
            flow.rule(Ink::grid, flow.left(), flow.left() + PageFlow::width);
        }
        flow.skip(16.0);
        from = to;
    }
    for (const std::string& note : numbers.notes) flow.paragraph(note, small_quiet);
    flow.skip(32.0);
}

void draw_closing(PageFlow& flow, const LessonResult& lesson) {
    if (lesson.swings.empty()) flow.skip(40.0);
    flow.heading("How to read it", 80.0);
    for (const std::string& paragraph : how_to_read(lesson)) flow.paragraph(paragraph, small);
    flow.skip(8.0);
    flow.figure(legend_figure(PageFlow::width));
    flow.skip(32.0);
    double caution_height = 0.0;
    for (const std::string& caution : cautions()) {
        caution_height += flow.canvas().paragraph_height(PageFlow::width - 16.0, caution, small) + 8.0;
    }
    flow.heading("Take care", caution_height);
    flow.list(cautions(), small);
}

/// Draws the whole report; gives the number of pages.
int draw_report(Canvas& canvas, const LessonResult& lesson, int pages) {
    std::string running = clean_text(report_title(lesson), most_title);
    if (!lesson.facts.started.empty()) running += " · " + clean_text(lesson.facts.started.substr(0, 10));
    PageFlow flow(canvas, running, pages);
    draw_first_page(flow, lesson);
    draw_swings(flow, lesson);
    draw_table(flow, lesson);
    draw_together(flow, lesson);
    draw_more_numbers(flow, lesson);
    draw_closing(flow, lesson);
    flow.close();
    return flow.page();
}

}  // namespace

Result<std::string> pdf_report(const LessonResult& lesson) {
    const DocumentFacts facts{"Lesson report: " + clean_text(report_title(lesson), most_title),
                              "Lead share at address, top and impact", iso_start(lesson)};
    // Drawn twice: the first time only to know how many pages there are.
    Canvas trial = Canvas::pdf(PageFlow::page_width, PageFlow::page_height, facts);
    const int pages = draw_report(trial, lesson, 0);
    Canvas canvas = Canvas::pdf(PageFlow::page_width, PageFlow::page_height, facts);
    draw_report(canvas, lesson, pages);
    return canvas.finish();
}

}  // namespace footing
