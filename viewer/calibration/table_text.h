#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// One line of a small table.
struct TableRow {
    std::string place;  ///< "readings.csv, line 3"
    std::vector<std::string> cells;
};

/// A small table of numbers and plain words: comma-separated, a header, no quotes; empty lines, lines that
/// begin with # and a byte order mark are skipped.
struct TableText {
    std::vector<std::string> header;
    std::vector<TableRow> rows;

    [[nodiscard]] bool has(const std::string& name) const;
    /// Number of a column that has() is true for.
    [[nodiscard]] std::size_t column(const std::string& name) const;
};

/// Fails with bad_input, naming the line: no header, a needed column absent, a column twice, a row with more
/// or fewer cells, no rows, larger than 64 MB.
[[nodiscard]] Result<TableText> parse_table(const std::string& text, const std::string& place,
                                            const std::vector<std::string>& needed);

/// A word from a file, fit for a message: in quotes, on one line, at most 40 characters.
[[nodiscard]] std::string quoted_word(const std::string& word);

/// A finite number with a point, whatever the locale; else bad_input.
[[nodiscard]] Result<double> number_of(const std::string& cell, const std::string& place);

/// The plate with this name, or "1", "2" …; an empty name is the only plate. Else bad_input.
[[nodiscard]] Result<std::size_t> plate_called(const std::string& name, const PlateLayout& layout,
                                               const std::string& place);

/// What is wrong with a table that somebody wrote, where, and what to do.
[[nodiscard]] Problem table_problem(const std::string& place, std::string what, std::string remedy);

}  // namespace footing
