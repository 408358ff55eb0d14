#include "analysis/report/lesson_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_table.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr std::size_t most_columns = 110;
constexpr std::size_t table_indent = 2;
constexpr std::size_t most_name = 160;  // characters of free text in the header

/// Without its unit, which stands in the column's head.
std::string share_cell(const std::optional<ShareValue>& share) {
    if (!share) return "-";
    const std::string verdict =
        share->verdict == Verdict::too_close ? "too close" : verdict_name(share->verdict);
    return share_numbers(*share) + " " + verdict;
}

constexpr const char* estimated_mark = "~";

bool is_estimated(const Swing& swing) {
    return swing.events.impact && swing.events.impact->source == EventSource::estimated;
}

std::string impact_time_cell(const Swing& swing) {
    if (!swing.events.impact) return "-";
    return (is_estimated(swing) ? estimated_mark : "") + number_words(swing.events.impact->time_s, 2);
}

/// What the mark beside a time says; empty where none is there.
std::string estimated_words(const std::vector<Swing>& swings) {
    std::vector<double> u_s;
    for (const Swing& swing : swings) {
        if (is_estimated(swing)) u_s.push_back(swing.events.impact->u_s);
    }
    if (u_s.empty()) return "";
    return fmt::format(
        "  {} impact estimated from the load in {}, to ± {} s (median); --json tells every "
        "event's ± and source\n",
        estimated_mark, count_words(u_s.size(), "swing", "swings"), number_words(2.0 * median(u_s), 2));
}

using Row = std::vector<std::string>;

Row swing_row(const Swing& swing) {
    return {fmt::format("{}", swing.index),
            kind_name(swing.kind),
            impact_time_cell(swing),
            share_cell(swing.lead_share.address),
            share_cell(swing.lead_share.top),
            share_cell(swing.lead_share.impact),
            share_cell(swing.lead_share.lowest),
            swing.cop_m.address ? place_words(*swing.cop_m.address, swing.cop_u_m.address) : "-",
            swing.tempo ? ratio_words(swing.tempo->ratio) : "-"};
}

}  // namespace

std::string lesson_table(const LessonResult& lesson, std::size_t widest) {
    std::string text = clean_text(report_title(lesson), most_name) + "\n";
    for (const Fact& fact : lesson_facts(lesson)) {
        text += fmt::format("  {:<12} {}\n", fact.name, clean_text(fact.value, most_name));
    }
    text += fmt::format("  {:<12} {}, {}; ± is twice the standard uncertainty\n\n", "Band",
                        band_words(lesson.band), certainty_words(lesson.sure));
    if (lesson.swings.empty()) return text + no_swing_words(lesson) + "\n" + stray_strike_words(lesson);
    const std::vector<TableColumn> columns{{"#", Side::right}, {"kind"},           {"at, s", Side::right},
                                           {"address, %"},     {"top, %"},         {"impact, %"},
                                           {"lowest, %"},      {"CoP at address"}, {"tempo"}};
    std::vector<Row> rows;
    for (const Swing& swing : lesson.swings) rows.push_back(swing_row(swing));
    std::string text_below =
        estimated_words(lesson.swings) + no_share_words(lesson) + stray_strike_words(lesson);
    if (const std::string hand = other_hand_words(lesson); !hand.empty()) text_below += hand + "\n";
    return text + text_table(columns, rows, {table_indent, widest}) + text_below;
}

std::string more_numbers_table(const LessonResult& lesson, std::size_t widest) {
    if (lesson.swings.empty()) return "";
    const MoreNumbers numbers = more_numbers(lesson);
    std::vector<TableColumn> columns{{numbers.names.front(), Side::right}};
    for (std::size_t column = 1; column < numbers.names.size(); ++column)
        columns.push_back({numbers.names[column]});
    std::string text =
        "\n" + text_table(columns, numbers.rows, {table_indent, std::min(widest, most_columns)});
    text += "\n";
    for (const std::string& note : numbers.notes) text += "  " + note + "\n";
    return text;
}

}  // namespace footing
