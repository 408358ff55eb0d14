#include "analysis/report/html_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/html_parts.h"
#include "analysis/report/legend_figure.h"
#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/svg_painter.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

std::string headline_of(const LessonResult& lesson) {
    const auto head = headline(lesson);
    if (!head) return "";
    return fmt::format("<p class=\"headline\"><strong>{} of {}</strong> <span>{}</span></p>\n", head->inside,
                       head->counted, escaped(unbroken(head->of_what)));
}

std::string words_of(const PlainWords& words) {
    std::string html;
    if (!words.keep.empty() || !words.change.empty()) {
        html += "<div class=\"words plain\">\n";
        if (!words.keep.empty()) html += "<section><h2>Keep</h2>\n" + html_list(words.keep) + "</section>\n";
        if (!words.change.empty())
            html += "<section><h2>Change</h2>\n" + html_list(words.change) + "</section>\n";
        html += "</div>\n";
    }
    if (!words.notes.empty())
        html += "<section class=\"plain\"><h2>To know</h2>\n" + html_list(words.notes) + "</section>\n";
    return html;
}

std::string swing_article(const LessonResult& lesson, std::size_t place) {
    const Swing& swing = lesson.swings[place];
    std::string html = "<article>\n<h3>" + escaped(swing_title(swing)) + "</h3>\n";
    const std::vector<Fact> facts = swing_facts(swing, lesson.facts.hand);
    if (!facts.empty()) {
        html += "<dl class=\"numbers\">\n";
        for (const Fact& fact : facts) {
            html +=
                fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", escaped(fact.name), escaped(fact.value));
        }
        html += "</dl>\n";
    }
    html += html_picture([&](double width) {
        SwingFigureOptions options;
        options.width = width;
        options.edge = 0.0;
        options.height = 480.0;
        options.swings = {place};
        return evidence_figure(lesson, options, lesson.band);
    });
    return html + "</article>\n";
}

/// The other teaching numbers, folded away: for who wants the evidence.
std::string more_of(const LessonResult& lesson) {
    const MoreNumbers numbers = more_numbers(lesson);
    std::string html = "<details>\n<summary>More numbers</summary>\n" +
                       html_table("More numbers of each swing", numbers.names, numbers.rows);
    for (const std::string& note : numbers.notes)
        html += "<p class=\"small quiet\">" + escaped(unbroken(note)) + "</p>\n";
    return html + "</details>\n";
}

}  // namespace

std::string html_report(const LessonResult& lesson, ReportForm form) {
    const std::string title = escaped(report_title(lesson));
    std::string html = html_head("Lesson report: " + report_title(lesson));
    html += "<header>\n<p class=\"small quiet\">Footing · lesson report</p>\n<h1 dir=\"auto\">" + title +
            "</h1>\n";
    html += html_facts(lesson_facts(lesson)) + "</header>\n";
    html += headline_of(lesson) + words_of(plain_words(lesson));
    if (!lesson.swings.empty()) {
        const std::string legend = html_picture([](double width) { return legend_figure(width); });
        const bool full = form == ReportForm::full;
        html += html_section("All swings", (has_shares(lesson) ? legend + html_overview(lesson) : "") +
                                               (full ? html_swing_table(lesson) : "") +
                                               html_together(lesson) + (full ? more_of(lesson) : ""));
        std::string swings;
        for (std::size_t i = 0; full && i < lesson.swings.size(); ++i) swings += swing_article(lesson, i);
        if (full) html += html_section("Swing by swing", swings);
    }
    std::string reading;
    for (const std::string& paragraph : how_to_read(lesson))
        reading += "<p>" + escaped(unbroken(paragraph)) + "</p>\n";
    html += html_section("How to read it", reading) + html_section("Take care", html_list(cautions()));
    return html + html_foot();
}

}  // namespace footing
