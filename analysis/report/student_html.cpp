#include "analysis/report/student_html.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/html_parts.h"
#include "analysis/report/laid_swings.h"
#include "analysis/report/legend_figure.h"
#include "analysis/report/lessons_measured.h"
#include "analysis/report/number_words.h"
#include "analysis/report/progress_figure.h"
#include "analysis/report/student_figures.h"
#include "analysis/report/student_pdf.h"
#include "analysis/report/student_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr double beside_px = 420.0;  // a picture beside its words, on the wide page
constexpr double tile_px = 352.0;    // a swing's

std::string svg(const Figure& figure) {
    return svg_of(figure, Theme::print, SvgPlace::within_html);
}

std::string paragraph(const std::string& sentence, const char* look = "") {
    return fmt::format("<p{}>{}</p>\n", look, escaped(unbroken(sentence)));
}

constexpr const char* quiet = " class=\"small quiet\"";

/// `draw` gives the thing's picture in the width it is given.
template <typename Draw>
std::string thing_of(const PlainThing& thing, const Draw& draw) {
    std::string html = "<section class=\"thing\">\n<div>\n<h2>" + escaped(thing.name) + "</h2>\n";
    if (!thing.number.empty()) html += "<strong>" + escaped(thing.number) + "</strong>\n";
    for (const std::string& sentence : thing.sentences) html += paragraph(sentence);
    html += "</div>\n";
    if (const Figure wide = draw(beside_px); !wide.shapes.empty()) {
        html += "<div><div class=\"wide\">" + svg(wide) + "</div>\n<div class=\"narrow\">" +
                svg(draw(narrow_px)) + "</div></div>\n";
    }
    return html + "</section>\n";
}

std::string card_of_page(const StudentReport& report) {
    std::string html = "<section class=\"card\">\n<div>\n<h2>What to practise</h2>\n<ol>\n";
    for (const std::string& sentence : practice_sentences(report))
        html += "<li>" + escaped(unbroken(sentence)) + "</li>\n";
    html += "</ol>\n</div>\n";
    html += "<div>" + paragraph(card_words(report) + "print it and cut along the dashes", quiet) +
            svg(card_figure(report)) + "</div>\n";
    return html + "</section>\n";
}

std::string distances_of_page(const StudentReport& report) {
    const bool any =
        std::ranges::any_of(report.chart.cells, [](const DistanceCell& cell) { return !cell.shots.empty(); });
    if (!any) return "";
    std::string html = html_picture([&](double width) { return distance_chart_figure(report, width); });
    html += paragraph(
        "Each stroke is a shot that counts, each ring one set aside; the bar is the spread (one standard "
        "deviation either "
        "way), the diamond the mean.",
        quiet);
    std::vector<std::vector<std::string>> rows;
    for (const SetAsideShot& shot : shots_with_reason(report))
        rows.push_back({shot.club, shot.carry, shot.date, shot.where, shot.why});
    if (!rows.empty())
        html +=
            html_table("Shots with a reason", {"Shot", "Carry", "On", "In", "Why"}, rows, CellText::wrapped);
    const std::vector<std::string> warnings = chart_sentences(report);
    return html_section("Your distances, shot by shot", html + (warnings.empty() ? "" : html_list(warnings)));
}

std::string progress_of_page(const StudentReport& report) {
    if (!has_progress_figure(report.progress)) return "";
    const std::string html =
        paragraph(progress_picture_words(report), quiet) + html_picture([&](double width) {
            return progress_figure(report.progress, report.progress_dates, width, 560.0);
        });
    const std::vector<std::string> sentences = progress_sentences(report);
    return html_section("Over the lessons", html + html_list(sentences));
}

/// The newest lessons side by side: what the swings of each have in common.
std::string laid_of_page(const StudentReport& report) {
    if (!shows_laid(report)) return "";
    std::string html = paragraph(laid_words(report), quiet) + "<div class=\"tiles\">\n";
    for (const LaidSwings& laid : report.laid) {
        html += fmt::format("<article>\n<h3>{}</h3>\n{}</article>\n", escaped(laid_title(report, laid)),
                            svg(laid_figure(laid, tile_px, 280.0)));
    }
    return html_section("Swing over swing", html + "</div>\n");
}

/// What the marks beside numbers mean, above where they stand.
std::string marks_of_page() {
    return html_picture([](double width) { return legend_figure(width); }) +
           paragraph(finish_mark_words(), quiet);
}

/// Each swing of a recording of one of the lessons.
std::string each_swing_of_page(const StudentReport& report, std::size_t lesson, const LessonResult& measured,
                               const std::string& words) {
    std::string html = paragraph(words, quiet);
    if (has_shares(measured)) html += marks_of_page();
    html += "<div class=\"tiles\">\n";
    for (std::size_t place = 0; place < measured.swings.size(); ++place) {
        const ReportedSwing* said = reported(report, lesson, measured.swings[place]);
        SwingFigureOptions options;
        options.width = tile_px;
        options.height = 300.0;
        options.edge = 0.0;
        options.swings = {place};
        const std::string line = said ? swing_line(report, *said) : "";
        html += fmt::format("<article>\n<h3>Swing {}</h3>\n<p class=\"small\">{}</p>\n{}</article>\n",
                            measured.swings[place].index, escaped(line),
                            svg(evidence_figure(measured, options, said ? said->band : measured.band)));
    }
    return html_section(
        lesson == report.measured_lesson ? "Each swing" : "Each swing before",
        html + "</div>\n" + (lesson == report.measured_lesson ? "" : html_swing_table(measured)));
}

enum class SwingTable { with, without };

std::string together_of_page(const StudentReport& report, SwingTable table) {
    if (!report.measured || report.measured->swings.empty()) return "";
    const LessonResult& measured = *report.measured;
    std::string together;
    if (has_shares(measured)) together = marks_of_page() + html_overview(measured);
    return html_section(
        "All of them together",
        together + (table == SwingTable::with ? html_swing_table(measured) : "") +
            html_together(measured, set_aside_places(report, report.measured_lesson, measured)));
}

std::string swings_of_page(const StudentReport& report) {
    if (!report.measured || report.measured->swings.empty()) return "";
    std::string html =
        each_swing_of_page(report, report.measured_lesson, *report.measured, each_swing_words(report)) +
        together_of_page(report, SwingTable::with);
    for (const MeasuredLesson& earlier : report.earlier)
        html += each_swing_of_page(report, earlier.lesson, earlier.result,
                                   each_swing_words(report, earlier.lesson));
    return html;
}

/// What stands between page one and how it was measured.
std::string evidence_of_page(const StudentReport& report) {
    if (report.form == ReportForm::brief) return together_of_page(report, SwingTable::without);
    std::string html;
    if (report.lessons.size() > 1) {
        html += html_section("Lesson by lesson",
                             paragraph(lessons_words(), quiet) +
                                 html_picture([&](double width) { return lessons_figure(report, width); }));
    }
    return html + distances_of_page(report) + progress_of_page(report) + laid_of_page(report) +
           swings_of_page(report);
}

std::string closing_of_page(const StudentReport& report) {
    std::string html;
    for (const std::string& sentence : how_it_was_measured(report)) html += paragraph(sentence);
    if (report.measured) {
        html += "<h3>" + escaped(recording_words(report)) + "</h3>\n" +
                html_facts(report.lessons[report.measured_lesson].measured_by);
    }
    const std::vector<std::vector<std::string>> rows = lessons_measured(report);
    if (!rows.empty())
        html += html_table("How each lesson was measured", {"Lesson", "Date", "Measured by"}, rows,
                           CellText::wrapped);
    return html_section("How it was measured", html) +
           html_section("Take care", html_list(student_cautions(report)));
}

}  // namespace

std::string student_html(const StudentReport& report) {
    std::string html = html_head(student_title(report));
    html += "<header>\n<p class=\"small quiet\">Footing · your short game</p>\n<h1 dir=\"auto\">" +
            escaped(report.name) + "</h1>\n";
    html += paragraph(period_words(report), quiet) + "</header>\n";
    constexpr double height = 190.0;
    html +=
        thing_of(set_up_thing(report), [&](double width) { return set_up_figure(report, width, height); });
    html +=
        thing_of(rhythm_thing(report), [&](double width) { return rhythm_figure(report, width, height); });
    html +=
        thing_of(distances_thing(report), [&](double width) { return wedges_figure(report, width, height); });
    html += card_of_page(report);
    html += evidence_of_page(report) + closing_of_page(report);
    return html + html_foot();
}

}  // namespace footing
