#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace footing {

enum class Side { left, right };

struct TableColumn {
    std::string title;
    Side side = Side::left;  ///< on which the words stand
};

struct TableRoom {
    static constexpr std::size_t no_limit = std::numeric_limits<std::size_t>::max();
    std::size_t indent = 0;         ///< blanks before each line
    std::size_t widest = no_limit;  ///< columns of the terminal
};

/// A table for a terminal: columns as wide as they need to be, two blanks between. Cells are made harmless
/// (one line, no control characters) and cut at 40 characters; wide characters count as two. A table that is
/// wider than there is room for comes in several, one below the other, each led by the first column.
[[nodiscard]] std::string text_table(const std::vector<TableColumn>& columns,
                                     const std::vector<std::vector<std::string>>& rows,
                                     const TableRoom& room = {});

/// How many columns of a terminal the widest of some lines takes.
[[nodiscard]] std::size_t widest_line(const std::string& lines);

}  // namespace footing
