#include "analysis/report/lesson_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "analysis/report/more_numbers.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr std::size_t most_columns = 110;
constexpr std::size_t most_name = 160;  // characters of free text in the header

/// Characters, not bytes: "±" is one.
std::size_t characters(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char letter) {
        return (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U;
    }));
}

std::size_t widest_line(const std::string& lines) {
    std::size_t widest = 0;
    for (std::size_t begin = 0; begin < lines.size();) {
        const std::size_t end = std::min(lines.find('\n', begin), lines.size());
        widest = std::max(widest, characters(lines.substr(begin, end - begin)));
        begin = end + 1;
    }
    return widest;
}

std::string share_cell(const std::optional<ShareValue>& share) {
    if (!share) return "-";
    const std::string verdict =
        share->verdict == Verdict::too_close ? "too close" : verdict_name(share->verdict);
    return share_words(*share) + " " + verdict;
}

using Row = std::vector<std::string>;

Row swing_row(const Swing& swing) {
    return {fmt::format("{}", swing.index),
            kind_name(swing.kind),
            share_cell(swing.lead_share.address),
            share_cell(swing.lead_share.top),
            share_cell(swing.lead_share.impact),
            share_cell(swing.lead_share.lowest),
            swing.cop_m.address ? place_words(*swing.cop_m.address, swing.cop_u_m.address) : "-",
            swing.tempo ? ratio_words(swing.tempo->ratio) : "-"};
}

}  // namespace

std::string aligned_table(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths(rows.front().size(), 0);
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], characters(row[i]));
    }
    std::string text;
    for (const auto& row : rows) {
        std::string line;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string padding(widths[i] - characters(row[i]), ' ');
            line += "  " + (i == 0 ? padding + row[i] : row[i] + padding);
        }
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + "\n";
    }
    return text;
}

std::string lesson_table(const LessonResult& lesson) {
    std::string text = clean_text(report_title(lesson), most_name) + "\n";
    for (const Fact& fact : lesson_facts(lesson)) {
        text += fmt::format("  {:<12} {}\n", fact.name, clean_text(fact.value, most_name));
    }
    text += fmt::format("  {:<12} {}, {}; ± is twice the standard uncertainty\n\n", "Band",
                        band_words(lesson.band), certainty_words(lesson.sure));
    if (lesson.swings.empty()) return text + no_swing_words(lesson) + "\n" + stray_strike_words(lesson);
    std::vector<Row> rows{{"#", "kind", "address", "top", "impact", "lowest", "CoP at address", "tempo"}};
    for (const Swing& swing : lesson.swings) rows.push_back(swing_row(swing));
    return text + aligned_table(rows) + no_share_words(lesson) + stray_strike_words(lesson);
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
            std::vector<Row> wider{{numbers.names.front()}};
            for (const auto& row : numbers.rows) wider.push_back({row.front()});
            for (std::size_t column = from; column <= to; ++column) {
                wider.front().push_back(numbers.names[column]);
                for (std::size_t i = 0; i < numbers.rows.size(); ++i)
                    wider[i + 1].push_back(numbers.rows[i][column]);
            }
            std::string lines = aligned_table(wider);
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
