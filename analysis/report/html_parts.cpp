#include "analysis/report/html_parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/report/number_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

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
.plain h2 { font-size: 16px; line-height: 24px; margin: 32px 0 8px; padding: 0; border: 0; }
ul, ol { margin: 0; padding-left: 24px; }
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
.scroll:focus-visible { outline: 2px solid #0068A6; outline-offset: 2px; }
.scroll + ul { margin-top: 16px; }
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
.thing { display: grid; grid-template-columns: 5fr 7fr; gap: 0 32px; border-top: 1px solid #1F2328; padding: 16px 0; }
.thing h2, .card h2 { font-size: 16px; line-height: 24px; margin: 0; padding: 0; border: 0; }
.thing strong { display: block; font-size: 44px; line-height: 56px; font-weight: 600; letter-spacing: -1px; }
.thing p { font-size: 13px; line-height: 20px; }
.card { display: grid; grid-template-columns: 1fr 340px; gap: 16px 32px; border-top: 1px solid #1F2328; padding: 16px 0; }
.card svg { width: 324px; max-width: 100%; }
.tiles { display: grid; grid-template-columns: 1fr 1fr; gap: 0 32px; }
.wrap td, .wrap th { vertical-align: top; }
.wrap td:last-child { white-space: normal; min-width: 240px; }
@media (max-width: 640px) { .thing, .card, .tiles { grid-template-columns: 1fr; } }
@media print {
  main { max-width: none; padding: 0; }
  h2, h3, caption { break-after: avoid; }
  .scroll { overflow: visible; }
  table { font-size: 11px; line-height: 15px; }
  th, td { padding-right: 4px; }
  tr, svg, .thing, .card { break-inside: avoid; }
  svg { max-height: 21cm; }
}
)";

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

}  // namespace

std::string html_head(const std::string& title) {
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
           "'unsafe-inline'; base-uri 'none'; form-action 'none'\"/>\n"
           "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
           "<meta name=\"referrer\" content=\"no-referrer\"/>\n<title>" +
           escaped(title) + "</title>\n<style>" + style + svg_style(Theme::print) +
           "</style>\n</head>\n<body>\n<main>\n";
}

std::string html_foot() {
    return "</main>\n</body>\n</html>\n";
}

std::string html_list(const std::vector<std::string>& sentences) {
    std::string html = "<ul>\n";
    for (const std::string& sentence : sentences) html += "<li>" + escaped(unbroken(sentence)) + "</li>\n";
    return html + "</ul>\n";
}

std::string html_facts(const std::vector<Fact>& facts) {
    std::string html = "<dl class=\"facts\">\n";
    for (const Fact& fact : facts) {
        html += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(fact.name), escaped(unbroken(fact.value)));
    }
    return html + "</dl>\n";
}

namespace {

/// Into the table's frame, which the keyboard can scroll where the page is narrow, and through its row of
/// headers.
std::string table_start(const std::string& caption, const std::vector<std::string>& names, const char* look) {
    std::string html = fmt::format(
        "<section class=\"scroll\" aria-label=\"{0}\" "
        "tabindex=\"0\"><table{1}>\n<caption>{0}</caption>\n<thead><tr>",
        escaped(caption), look);
    for (const std::string& name : names) html += "<th scope=\"col\">" + escaped(name) + "</th>";
    return html + "</tr></thead>\n<tbody>\n";
}

constexpr const char* table_end = "</tbody>\n</table></section>\n";

}  // namespace

std::string html_table(const std::string& caption, const std::vector<std::string>& names,
                       const std::vector<std::vector<std::string>>& rows, CellText cells) {
    std::string html = table_start(caption, names, cells == CellText::wrapped ? " class=\"wrap\"" : "");
    for (const auto& row : rows) {
        html += "<tr><th scope=\"row\">" + escaped(row.front()) + "</th>";
        for (std::size_t i = 1; i < row.size(); ++i) html += "<td>" + escaped(row[i]) + "</td>";
        html += "</tr>\n";
    }
    return html + table_end;
}

std::string html_overview(const LessonResult& lesson) {
    return html_picture([&](double width) {
        SwingFigureOptions options;
        options.width = width;
        options.edge = 0.0;
        const double rows = static_cast<double>(lesson.swings.size());
        options.height = 72.0 + std::clamp(rows * 24.0, 24.0, 960.0);
        return lesson_figure(lesson, options);
    });
}

std::string html_swing_table(const LessonResult& lesson) {
    if (!has_shares(lesson)) return "";
    std::string html = table_start(
        "Lead share with its uncertainty, and tempo",
        {"Swing", "Kind", "Address", "Turnaround", "Top", "Impact", "Finish", "Lowest", "Tempo"}, "");
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
    return html + table_end;
}

std::string html_together(const LessonResult& lesson, std::span<const std::size_t> left_out) {
    const SwingSet set =
        swing_set(lesson.trace, lesson.facts.hand, lesson.swings, SetKind::counted, left_out);
    if (!set.together) return "";
    std::string html = "<h3>Laid over each other</h3>\n" +
                       html_picture([&](double width) { return set_figure(lesson, set, width, 440.0); });
    for (const std::string& sentence : set_words(lesson, set))
        html += "<p class=\"small quiet\">" + escaped(unbroken(sentence)) + "</p>\n";
    return html;
}

std::string html_section(const std::string& name, const std::string& content) {
    return fmt::format("<section>\n<h2>{}</h2>\n{}</section>\n", escaped(name), content);
}

}  // namespace footing
