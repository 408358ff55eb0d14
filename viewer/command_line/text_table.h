#pragma once

#include <string>
#include <vector>

namespace footing {

enum class Side { left, right };

struct TableColumn {
    std::string title;
    Side side = Side::left;  ///< on which the words stand
};

/// A table for a terminal: columns as wide as they need to be, two blanks between. Cells are made harmless
/// (one line, no control characters) and cut at 40 characters; wide characters count as two.
[[nodiscard]] std::string text_table(const std::vector<TableColumn>& columns,
                                     const std::vector<std::vector<std::string>>& rows);

}  // namespace footing
