#include "analysis/report/text_table.h"

#include <glib.h>

#include <algorithm>

#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr std::size_t most_characters = 40;

std::size_t width_of(const std::string& text) {
    std::size_t width = 0;
    for (const char* at = text.c_str(); *at != '\0'; at = g_utf8_next_char(at)) {
        const gunichar letter = g_utf8_get_char(at);
        width += g_unichar_iszerowidth(letter) ? 0 : g_unichar_iswide(letter) ? 2 : 1;
    }
    return width;
}

constexpr std::size_t between = 2;  // blanks

using Lines = std::vector<std::vector<std::string>>;

/// The title and the cells of the chosen columns, line by line.
std::string lines_of(const std::vector<TableColumn>& columns, const Lines& lines,
                     const std::vector<std::size_t>& widths, const std::vector<std::size_t>& chosen,
                     std::size_t indent) {
    std::string text;
    for (const auto& line : lines) {
        std::string words(indent, ' ');
        for (const std::size_t i : chosen) {
            const std::string blanks(widths[i] - width_of(line[i]), ' ');
            if (i != chosen.front()) words.append(between, ' ');
            words += columns[i].side == Side::left ? line[i] + blanks : blanks + line[i];
        }
        words.erase(words.find_last_not_of(' ') + 1);
        text += words + "\n";
    }
    return text;
}

/// Which columns stand beside each other: the first one, and as many of the next as there is room for.
std::vector<std::vector<std::size_t>> blocks_of(const std::vector<std::size_t>& widths,
                                                const TableRoom& room) {
    std::vector<std::vector<std::size_t>> blocks;
    std::size_t used = 0;
    for (std::size_t column = 1; column < widths.size(); ++column) {
        used += between + widths[column];
        if (blocks.empty() || used > room.widest) {
            blocks.push_back({0});
            used = room.indent + widths.front() + between + widths[column];
        }
        blocks.back().push_back(column);
    }
    if (blocks.empty()) blocks.push_back({0});
    return blocks;
}

}  // namespace

std::string text_table(const std::vector<TableColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows, const TableRoom& room) {
    Lines lines;
    lines.emplace_back();
    for (const TableColumn& column : columns) lines.front().push_back(column.title);
    for (const auto& row : rows) {
        lines.emplace_back();
        for (const std::string& cell : row) lines.back().push_back(clean_text(cell, most_characters));
    }
    std::vector<std::size_t> widths(columns.size(), 0);
    for (const auto& line : lines) {
        for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], width_of(line[i]));
    }
    std::string text;
    for (const std::vector<std::size_t>& block : blocks_of(widths, room))
        text += (text.empty() ? "" : "\n") + lines_of(columns, lines, widths, block, room.indent);
    return text;
}

std::size_t widest_line(const std::string& lines) {
    std::size_t widest = 0;
    for (std::size_t begin = 0; begin < lines.size();) {
        const std::size_t end = std::min(lines.find('\n', begin), lines.size());
        widest = std::max(widest, width_of(lines.substr(begin, end - begin)));
        begin = end + 1;
    }
    return widest;
}

}  // namespace footing
