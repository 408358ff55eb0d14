#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace footing {

enum class Side { left, right };

struct TableColumn {
    std::string title;
    Side side = Side::left;  ///< on which the words stand
};

/// A table for a terminal: columns as wide as they need to be, two blanks between, `indent` blanks before
/// each line. Cells are made harmless (one line, no control characters) and cut at 40 characters; wide
/// characters count as two.
[[nodiscard]] std::string text_table(const std::vector<TableColumn>& columns,
                                     const std::vector<std::vector<std::string>>& rows,
                                     std::size_t indent = 0);

/// How many columns of a terminal the widest of some lines takes.
[[nodiscard]] std::size_t widest_line(const std::string& lines);

}  // namespace footing
