#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "analysis/report/text_table.h"

namespace footing {

/// How many columns the terminal has that standard output goes to; no limit where it goes to a file or
/// another program.
[[nodiscard]] std::size_t terminal_columns();

/// text_table(), for standard output.
[[nodiscard]] std::string terminal_table(const std::vector<TableColumn>& columns,
                                         const std::vector<std::vector<std::string>>& rows);

}  // namespace footing
