#include "analysis/report/student_pdf.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "analysis/report/figure_kit.h"
#include "analysis/report/lesson_pages.h"
#include "analysis/report/lessons_measured.h"
#include "analysis/report/number_words.h"
#include "analysis/report/progress_figure.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_front.h"
#include "analysis/report/student_swings.h"
#include "analysis/report/student_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_styles.h"

namespace footing {

namespace {

using page_text::small;
using page_text::small_bold;
using page_text::small_quiet;

constexpr double row_height = 24.0;
constexpr double margin = 48.0;
constexpr std::size_t most_name_in_footer = 32;  // characters, so that the time stands there too

/// A figure that stands with its heading and the sentence before it.
void draw_section(PageFlow& flow, const char* name, const std::string& before, const Figure& figure) {
    const double words =
        before.empty() ? 0.0 : flow.canvas().paragraph_height(flow.width(), before, small) + 8.0;
    flow.heading(name, words + figure.height);
    if (!before.empty()) flow.paragraph(before, small);
    flow.figure(figure);
    flow.skip(12.0);
}

void draw_lessons(PageFlow& flow, const StudentReport& report) {
    if (report.lessons.size() < 2) return;
    constexpr std::size_t most_rows = 32;
    for (std::size_t from = 0; from < report.lessons.size(); from += most_rows) {
        StudentReport part = StudentReport{};
        const std::size_t to = std::min(report.lessons.size(), from + most_rows);
        part.hand = report.hand;
        part.lessons.assign(report.lessons.begin() + static_cast<std::ptrdiff_t>(from),
                            report.lessons.begin() + static_cast<std::ptrdiff_t>(to));
        for (const ReportedSwing& swing : report.swings) {
            if (swing.lesson < from || swing.lesson >= to) continue;
            part.swings.push_back(swing);
            part.swings.back().lesson -= from;
        }
        draw_section(flow, from == 0 ? "Lesson by lesson" : "Lesson by lesson, further", lessons_words(),
                     lessons_figure(part, flow.width()));
    }
}

struct Column {
    const char* name;
    double width;  // of the page's
};

/// Under its heading, where there is one, a table of words, the last column in as many lines as it needs; its
/// head again on every page, and no row alone on one.
void draw_word_table(PageFlow& flow, const std::vector<Column>& columns,
                     const std::vector<std::vector<std::string>>& rows, const std::string& heading = "") {
    Canvas& canvas = flow.canvas();
    const std::size_t last = columns.size() - 1;
    const double last_width = columns[last].width * flow.width();
    const auto cells = [&](const auto& cell, std::size_t count, double baseline, const TextStyle& style) {
        double x = flow.left();
        for (std::size_t i = 0; i < count; ++i) {
            canvas.cell({x, baseline}, columns[i].width * flow.width() - 8.0, cell(i), style);
            x += columns[i].width * flow.width();
        }
        return x;
    };
    const auto head = [&] {
        cells([&](std::size_t i) { return std::string(columns[i].name); }, columns.size(), flow.y() + 14.0,
              small_quiet);
        flow.skip(row_height);
        flow.rule(Ink::ink, flow.left(), flow.left() + flow.width());
    };
    const auto height_of = [&](std::size_t row) {
        return std::max(row_height, canvas.paragraph_height(last_width, rows[row][last], small) + 8.0);
    };
    // On one page where one holds it; else from here on.
    double first_rows = row_height;
    double all = row_height;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        all += height_of(row);
        if (row < 3) first_rows += height_of(row);
    }
    const double over = heading.empty() ? 0.0 : heading_height;
    const double together = all + over <= flow.page_room() ? all : first_rows;
    if (heading.empty()) {
        flow.need(together);
    } else {
        flow.heading(heading, together + over - 40.0);
    }
    head();
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const double height = height_of(row);
        if (flow.need(row + 2 == rows.size() ? height + height_of(row + 1) : height)) head();
        const double x = cells([&](std::size_t i) { return rows[row][i]; }, last, flow.y() + 16.0, small);
        canvas.paragraph({x, flow.y() + 3.0}, last_width, rows[row][last], small);
        flow.skip(height);
        flow.rule(Ink::grid, flow.left(), flow.left() + flow.width());
    }
    flow.skip(16.0);
}

void draw_distances(PageFlow& flow, const StudentReport& report) {
    const bool any =
        std::ranges::any_of(report.chart.cells, [](const DistanceCell& cell) { return !cell.shots.empty(); });
    if (!any) return;
    const Figure chart = distance_chart_figure(report, flow.width());
    draw_section(flow, "Your distances, shot by shot",
                 "Each stroke is a shot that counts, each ring one set aside; the bar is the spread (one "
                 "standard deviation "
                 "either way), the diamond the mean. On the right: the mean and how well it is known.",
                 chart);
    const std::vector<SetAsideShot> aside = shots_with_reason(report);
    if (!aside.empty()) {
        std::vector<std::vector<std::string>> rows;
        for (const SetAsideShot& shot : aside)
            rows.push_back({shot.club, shot.carry, shot.date, shot.where, shot.why});
        draw_word_table(flow, {{"shot", 0.17}, {"carry", 0.10}, {"on", 0.13}, {"in", 0.19}, {"why", 0.41}},
                        rows);
    }
    const std::vector<std::string> warnings = chart_sentences(report);
    flow.need(std::min(flow.list_height(warnings, small), flow.page_room()));
    flow.list(warnings, small);
    flow.skip(24.0);
}

void draw_progress(PageFlow& flow, const StudentReport& report) {
    if (!has_progress_figure(report.progress)) return;
    constexpr double own_margin = 24.0;  // of the figure, which starts where the text starts
    const std::vector<std::string> sentences = progress_sentences(report);
    const double list = flow.list_height(sentences, small);
    const double above =
        flow.canvas().paragraph_height(flow.width(), progress_picture_words(report), small) + 8.0;
    // With its sentences on one page, a little lower where that needs it.
    const double beside = heading_height + above + 12.0 + list;
    constexpr double lowest = 400.0;
    const double height = std::clamp(flow.page_room() - beside, lowest, 560.0);
    const Figure figure =
        progress_figure(report.progress, report.progress_dates, flow.width() + 2.0 * own_margin, height);
    const bool together = beside + figure.height <= flow.page_room();
    flow.heading("Over the lessons", above + figure.height + (together ? 12.0 + list : 0.0));
    flow.paragraph(progress_picture_words(report), small);
    flow.canvas().draw(figure, {flow.left() - own_margin, flow.y()});
    flow.skip(figure.height);
    flow.skip(12.0);
    flow.need(std::min(list, flow.page_room()));
    flow.list(sentences, small);
    flow.skip(24.0);
}

/// How it was measured, and care: together on one page where one holds both.
void draw_closing(PageFlow& flow, const StudentReport& report, TypeCoverage coverage) {
    Canvas& canvas = flow.canvas();
    std::vector<std::string> words = how_it_was_measured(report);
    if (coverage == TypeCoverage::some_missing) {
        words.emplace_back(
            "A letter or emoji that no font on the coach's computer has is printed as □ (a package of fonts "
            "that has "
            "it helps, on Debian fonts-symbola or fonts-noto-cjk); the HTML report shows it "
            "wherever the "
            "reader's own fonts have it.");
    }
    const std::vector<std::string> cautions = student_cautions(report);
    std::span<const Fact> facts;
    if (report.measured) facts = report.lessons[report.measured_lesson].measured_by;
    const auto rows = lessons_measured(report);
    double words_height = 0.0;
    for (const std::string& sentence : words)
        words_height += canvas.paragraph_height(flow.width(), sentence, small) + 8.0;
    const double table =
        rows.empty() ? 0.0 : heading_height + 32.0 + row_height * static_cast<double>(rows.size() + 1);
    const double care = 24.0 + cautions_height(flow, cautions);
    // Under whose recording it is, which may begin a page.
    constexpr double whose_height = 28.0;
    const double facts_all = facts.empty() ? 0.0 : whose_height + facts_height(flow, facts);
    const double before_care = rows.empty() ? facts_all : table;

    flow.heading("How it was measured", words_height);
    for (const std::string& sentence : words) flow.paragraph(sentence, small);
    flow.skip(8.0);
    // Care never stands alone on the last page: what is before it goes along.
    const auto take_along = [&](double last_block) {
        if (flow.room() < last_block + care && last_block + care <= flow.page_room()) flow.next_page();
    };
    if (rows.empty()) take_along(before_care);
    if (!facts.empty()) {
        flow.need(std::min(facts_all, flow.page_room()));
        flow.paragraph(recording_words(report), small_bold);
        draw_facts(flow, facts);
    }
    if (!rows.empty()) {
        flow.skip(24.0);
        take_along(before_care);
        draw_word_table(flow, {{"lesson", 0.10}, {"date", 0.29}, {"measured by", 0.61}}, rows,
                        "How each lesson was measured");
    }
    flow.skip(24.0);
    draw_cautions(flow, cautions);
}

struct Drawn {
    int pages = 0;
    TypeCoverage coverage = TypeCoverage::whole;
};

Drawn draw_report(Canvas& canvas, const Paper& paper, const StudentReport& report, const Drawn& trial) {
    PageFlow flow(canvas, paper, clean_text(report.name, most_name_in_footer) + " · " + report.period,
                  trial.pages);
    draw_page_one(flow, report);
    flow.next_page();
    if (report.form == ReportForm::brief) {
        draw_swings_together(flow, report);
    } else {
        draw_lessons(flow, report);
        draw_distances(flow, report);
        draw_progress(flow, report);
        draw_laid(flow, report);
        draw_swings(flow, report);
    }
    flow.skip(24.0);
    draw_closing(flow, report, trial.coverage);
    flow.close();
    return {flow.page(), canvas.coverage()};
}

}  // namespace

std::string student_title(const StudentReport& report) {
    return "Report for " + clean_text(report.name, most_name_on_paper);
}

Result<std::string> student_pdf(const StudentReport& report, PaperSize size) {
    const std::string date = report.lessons.empty() ? "1970-01-01" : report.lessons.back().date;
    const DocumentFacts facts{student_title(report), report.period, date + "T00:00:00Z"};
    const Paper paper = sheet_of(size, margin);
    // Measured before: how many pages there are, and whether the fonts have every letter.
    Canvas trial = Canvas::measure();
    Drawn drawn = draw_report(trial, paper, report, {});
    if (drawn.coverage == TypeCoverage::some_missing) {
        Canvas again = Canvas::measure();
        drawn.pages = draw_report(again, paper, report, drawn).pages;
    }
    Canvas canvas = Canvas::pdf(paper.width, paper.height, facts);
    draw_report(canvas, paper, report, drawn);
    return canvas.finish();
}

}  // namespace footing
