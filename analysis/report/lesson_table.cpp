#include "analysis/report/lesson_table.h"

#include <fmt/format.h>

#include <vector>

#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_table.h"

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

using Row = std::vector<std::string>;

Row swing_row(const Swing& swing) {
    return {fmt::format("{}", swing.index),
            kind_name(swing.kind),
            swing.events.impact ? number_words(swing.events.impact->time_s, 2) : "-",
            share_cell(swing.lead_share.address),
            share_cell(swing.lead_share.top),
            share_cell(swing.lead_share.impact),
            share_cell(swing.lead_share.lowest),
            swing.cop_m.address ? place_words(*swing.cop_m.address, swing.cop_u_m.address) : "-",
            swing.tempo ? ratio_words(swing.tempo->ratio) : "-"};
}

}  // namespace

std::string lesson_table(const LessonResult& lesson) {
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
    std::string text_below = no_share_words(lesson) + stray_strike_words(lesson);
    if (const std::string hand = other_hand_words(lesson); !hand.empty()) text_below += hand + "\n";
    return text + text_table(columns, rows, table_indent) + text_below;
}

std::string more_numbers_table(const LessonResult& lesson) {
    if (lesson.swings.empty()) return "";
    const MoreNumbers numbers = more_numbers(lesson);
    // As many columns in one block as the terminal is wide; each block is led by the swing's number.
    std::string text;
    for (std::size_t from = 1; from < numbers.names.size();) {
        std::string block;
        std::size_t to = from;
        while (to < numbers.names.size()) {
            std::vector<TableColumn> columns{{numbers.names.front(), Side::right}};
            std::vector<Row> wider;
            for (std::size_t column = from; column <= to; ++column)
                columns.push_back({numbers.names[column]});
            for (const auto& row : numbers.rows) {
                wider.push_back({row.front()});
                wider.back().insert(wider.back().end(), row.begin() + static_cast<std::ptrdiff_t>(from),
                                    row.begin() + static_cast<std::ptrdiff_t>(to) + 1);
            }
            std::string lines = text_table(columns, wider, table_indent);
            if (to > from && widest_line(lines) > most_columns) break;
            block = std::move(lines);
            ++to;
        }
        text += "\n" + block;
        from = to;
    }
    text += "\n";
    for (const std::string& note : numbers.notes) text += "  " + note + "\n";
    return text;
}

}  // namespace footing
