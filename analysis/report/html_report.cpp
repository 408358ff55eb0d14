#include "analysis/report/html_report.h"

#include <fmt/format.h>

#include <algorithm>

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

// The page's own width and the phone's; each picture is drawn for both, and the style shows one.
constexpr double wide_px = 736.0;
constexpr double narrow_px = 344.0;

constexpr const char* style = R"(
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1F2328; font: 16px/24px Inter, Roboto, "DejaVu Sans", sans-serif;
       font-feature-settings: "tnum"; overflow-wrap: anywhere; }
main { max-width: 800px; margin: 0 auto; padding: 32px; }
h1, h2, h3 { font-size: 22px; line-height: 32px; font-weight: 600; margin: 0; }
h1 { margin-bottom: 16px; }
h2 { margin: 48px 0 16px; padding-top: 16px; border-top: 1px solid #1F2328; }
h3 { font-size: 16px; line-height: 24px; margin: 32px 0 8px; }
p { margin: 0 0 8px; }
ul { margin: 0; padding-left: 24px; }
li { margin-bottom: 8px; }
.quiet, .facts dt, caption { color: #5B626B; }
.small, .facts, .numbers, table { font-size: 13px; line-height: 20px; }
.facts { display: grid; grid-template-columns: 104px 1fr; gap: 4px 16px; margin: 0; }
.facts dd { margin: 0; }
.headline { display: flex; flex-wrap: wrap; align-items: baseline; gap: 0 24px; margin: 32px 0; }
.headline strong { font-size: 88px; line-height: 96px; font-weight: 600; letter-spacing: -2px; white-space: nowrap; }
.words { display: grid; grid-template-columns: 1fr 1fr; gap: 0 32px; }
.numbers { display: flex; flex-wrap: wrap; gap: 8px 32px; margin: 0 0 16px; }
.numbers div { display: flex; flex-direction: column; }
.numbers dt { color: #5B626B; }
.numbers dd { margin: 0; font-weight: 600; }
svg { display: block; width: 100%; height: auto; }
.narrow { display: none; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; padding: 24px 0 8px; }
th, td { text-align: left; padding: 4px 8px 4px 0; border-bottom: 1px solid #DDDAD3; white-space: nowrap; font-weight: 400; }
thead th { border-bottom: 1px solid #1F2328; color: #5B626B; }
details { margin-top: 24px; }
summary { cursor: pointer; font-weight: 600; margin-bottom: 8px; }
details p { margin: 0; }
article { break-inside: avoid; }
@media (max-width: 640px) {
  main { padding: 16px; }
  .words { grid-template-columns: 1fr; }
  .wide { display: none; }
  .narrow { display: block; max-width: 480px; }
  .headline strong { white-space: normal; }
}
@media print { main { max-width: none; padding: 0; } h2 { break-after: avoid; } }
)";

/// A picture in both widths.
template <typename Draw>
std::string picture(const Draw& draw) {
    return "<div class=\"wide\">" + svg_of(draw(wide_px), Theme::print, SvgPlace::within_html) + "</div>\n" +
           "<div class=\"narrow\">" + svg_of(draw(narrow_px), Theme::print, SvgPlace::within_html) +
           "</div>\n";
}

std::string list_of(const std::vector<std::string>& sentences) {
    std::string html = "<ul>\n";
    for (const std::string& sentence : sentences) html += "<li>" + escaped(unbroken(sentence)) + "</li>\n";
    return html + "</ul>\n";
}

std::string facts_list(const std::vector<Fact>& facts) {
    std::string html = "<dl class=\"facts\">\n";
    for (const Fact& fact : facts) {
        html += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(fact.name), escaped(fact.value));
    }
    return html + "</dl>\n";
}

std::string headline_of(const LessonResult& lesson) {
    const auto head = headline(lesson);
    if (!head) return "";
    return fmt::format("<p class=\"headline\"><strong>{} of {}</strong> <span>{}</span></p>\n", head->inside,
                       head->counted, escaped(unbroken(head->of_what)));
}

std::string words_of(const PlainWords& words) {
    std::string html;
    if (!words.keep.empty() || !words.change.empty()) {
        html += "<div class=\"words\">\n";
        if (!words.keep.empty()) html += "<section><h3>Keep</h3>\n" + list_of(words.keep) + "</section>\n";
        if (!words.change.empty())
            html += "<section><h3>Change</h3>\n" + list_of(words.change) + "</section>\n";
        html += "</div>\n";
    }
    if (!words.notes.empty()) html += "<section><h3>To know</h3>\n" + list_of(words.notes) + "</section>\n";
    return html;
}

std::string lesson_picture(const LessonResult& lesson) {
    return picture([&](double width) {
        SwingFigureOptions options;
        options.width = width;
        options.edge = 0.0;
        const double rows = static_cast<double>(lesson.swings.size());
        options.height = 72.0 + std::clamp(rows * 24.0, 24.0, 960.0);
        return lesson_figure(lesson, options);
    });
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
    html += picture([&](double width) {
        SwingFigureOptions options;
        options.width = width;
        options.edge = 0.0;
        options.height = 480.0;
        options.swings = {place};
        return swing_figure(lesson, options);
    });
    return html + "</article>\n";
}

std::string share_cell(const std::optional<ShareValue>& share,
                       std::string (*words)(Verdict verdict) = verdict_words) {
    if (!share) return "<td>–</td>";
    constexpr struct {
        Verdict verdict;
        const char* glyph;
    } glyphs[] = {
        {Verdict::inside, "◆"}, {Verdict::below, "◁"}, {Verdict::above, "▷"}, {Verdict::too_close, "◇"}};
    const char* glyph = "";
    for (const auto& entry : glyphs) {
        if (entry.verdict == share->verdict) glyph = entry.glyph;
    }
    return fmt::format("<td><span role=\"img\" aria-label=\"{0}\" title=\"{0}\">{1}</span> {2}</td>",
                       escaped(words(share->verdict)), glyph, escaped(share_words(*share)));
}

std::string table_of(const LessonResult& lesson) {
    std::string html =
        "<div class=\"scroll\"><table>\n<caption>Lead share with its uncertainty, and "
        "tempo</caption>\n<thead><tr>";
    for (const char* name :
         {"Swing", "Kind", "Address", "Turnaround", "Top", "Impact", "Finish", "Lowest", "Tempo"}) {
        html += fmt::format("<th scope=\"col\">{}</th>", name);
    }
    html += "</tr></thead>\n<tbody>\n";
    for (const Swing& swing : lesson.swings) {
        html += fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td>", swing.index,
                            escaped(kind_name(swing.kind)));
        for (const auto* share : {&swing.lead_share.address, &swing.lead_share.turnaround,
                                  &swing.lead_share.top, &swing.lead_share.impact}) {
            html += share_cell(*share);
        }
        html +=
            share_cell(swing.lead_share.finish, finish_verdict_words) + share_cell(swing.lead_share.lowest);
        html += "<td>" + (swing.tempo ? escaped(ratio_words(swing.tempo->ratio)) : "–") + "</td></tr>\n";
    }
    return html + "</tbody>\n</table></div>\n";
}

/// The other teaching numbers, folded away: for who wants the evidence.
std::string more_of(const LessonResult& lesson) {
    const MoreNumbers numbers = more_numbers(lesson);
    std::string html =
        "<details>\n<summary>More numbers</summary>\n<div class=\"scroll\"><table>\n<thead><tr>";
    for (const std::string& name : numbers.names) html += "<th scope=\"col\">" + escaped(name) + "</th>";
    html += "</tr></thead>\n<tbody>\n";
    for (const auto& row : numbers.rows) {
        html += "<tr><th scope=\"row\">" + escaped(row.front()) + "</th>";
        for (std::size_t i = 1; i < row.size(); ++i) html += "<td>" + escaped(row[i]) + "</td>";
        html += "</tr>\n";
    }
    html += "</tbody>\n</table></div>\n";
    for (const std::string& note : numbers.notes)
        html += "<p class=\"small quiet\">" + escaped(note) + "</p>\n";
    return html + "</details>\n";
}

/// The swings of one kind laid over each other; nothing for fewer than three.
std::string together_of(const LessonResult& lesson) {
    const SwingSet set = swing_set(lesson.trace, lesson.facts.hand, lesson.swings, SetKind::counted);
    if (!set.together) return "";
    std::string html = "<h3>Laid over each other</h3>\n" +
                       picture([&](double width) { return set_figure(lesson, set, width, 440.0); });
    for (const std::string& sentence : set_words(lesson, set))
        html += "<p class=\"small quiet\">" + escaped(unbroken(sentence)) + "</p>\n";
    return html;
}

std::string section(const char* name, const std::string& content) {
    return fmt::format("<section>\n<h2>{}</h2>\n{}</section>\n", name, content);
}

}  // namespace

std::string html_report(const LessonResult& lesson) {
    const std::string title = escaped(report_title(lesson));
    std::string html = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n";
    html +=
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
        "'unsafe-inline'; "
        "base-uri 'none'; form-action 'none'\"/>\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n";
    html += "<meta name=\"referrer\" content=\"no-referrer\"/>\n";
    html += "<title>Lesson report: " + title + "</title>\n<style>" + style +
            "</style>\n</head>\n<body>\n<main>\n";
    html += "<header>\n<p class=\"small quiet\">Footing · lesson report</p>\n<h1 dir=\"auto\">" + title +
            "</h1>\n";
    html += facts_list(lesson_facts(lesson)) + "</header>\n";
    html += headline_of(lesson) + words_of(plain_words(lesson));
    if (!lesson.swings.empty()) {
        const std::string legend = picture([](double width) { return legend_figure(width); });
        html += section("All swings", (has_shares(lesson) ? lesson_picture(lesson) + legend : "") +
                                          table_of(lesson) + together_of(lesson) + more_of(lesson));
        std::string swings;
        for (std::size_t i = 0; i < lesson.swings.size(); ++i) swings += swing_article(lesson, i);
        html += section("Swing by swing", swings);
    }
    std::string reading;
    for (const std::string& paragraph : how_to_read(lesson))
        reading += "<p>" + escaped(unbroken(paragraph)) + "</p>\n";
    html += section("How to read it", reading) + section("Take care", list_of(cautions()));
    return html + "</main>\n</body>\n</html>\n";
}

}  // namespace footing
