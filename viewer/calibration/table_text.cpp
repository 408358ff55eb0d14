#include "viewer/calibration/table_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/count_words.h"

namespace footing {

namespace {

constexpr std::size_t most_bytes = std::size_t{64} << 20U;

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> cells;
    std::size_t from = 0;
    while (true) {
        const std::size_t comma = line.find(',', from);
        cells.push_back(trimmed(line.substr(from, comma - from)));
        if (comma == std::string::npos) return cells;
        from = comma + 1;
    }
}

}  // namespace

Problem table_problem(const std::string& place, std::string what, std::string remedy) {
    return {ProblemKind::bad_input, place, std::move(what), std::move(remedy)};
}

std::string quoted_word(const std::string& word) {
    return "\"" + clean_text(word, 40) + "\"";
}

bool TableText::has(const std::string& name) const {
    return std::find(header.begin(), header.end(), name) != header.end();
}

std::size_t TableText::column(const std::string& name) const {
    return static_cast<std::size_t>(std::find(header.begin(), header.end(), name) - header.begin());
}

Result<TableText> parse_table(const std::string& text, const std::string& place,
                              const std::vector<std::string>& needed) {
    if (text.size() > most_bytes)
        return table_problem(place, "the file is too large for a table", "give the right file");
    TableText table;
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    std::size_t from = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    for (int line_number = 1; from < text.size(); ++line_number) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        const std::string line = trimmed(text.substr(from, end - from));
        from = end + 1;
        if (line.empty() || line.front() == '#') continue;
        std::vector<std::string> cells = split(line);
        const std::string here = fmt::format("{}, line {}", place, line_number);
        if (table.header.empty()) {
            table.header = std::move(cells);
            for (auto name = table.header.begin(); name != table.header.end(); ++name) {
                if (std::find(table.header.begin(), name, *name) != name)
                    return table_problem(here, "there are two columns " + quoted_word(*name),
                                         "leave one of them out");
            }
            continue;
        }
        if (cells.size() != table.header.size()) {
            return table_problem(here,
                                 fmt::format("{} where the header has {}",
                                             count_words(cells.size(), "cell", "cells"), table.header.size()),
                                 "give every line as many cells as the header");
        }
        table.rows.push_back({here, std::move(cells)});
    }
    for (const std::string& name : needed) {
        if (!table.has(name))
            return table_problem(place, "there is no column " + name,
                                 "give the file a header that names its columns");
    }
    if (table.rows.empty()) return table_problem(place, "the table has no lines", "give it at least one");
    return table;
}

Result<double> number_of(const std::string& cell, const std::string& place) {
    double value = 0.0;
    const char* const end = cell.data() + cell.size();
    const auto [stop, error] = std::from_chars(cell.data(), end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value))
        return table_problem(place, quoted_word(cell) + " is no number",
                             "write numbers with a point, as in 12.5");
    return value;
}

Result<std::size_t> plate_called(const std::string& name, const PlateLayout& layout,
                                 const std::string& place) {
    if (name.empty() && layout.plates.size() == 1) return std::size_t{0};
    for (std::size_t plate = 0; plate < layout.plates.size(); ++plate) {
        if (layout.plates[plate].name == name || name == std::to_string(plate + 1)) return plate;
    }
    return table_problem(place, "the device has no plate called " + quoted_word(name),
                         "use the names of the device's description");
}

}  // namespace footing
