#pragma once

#include <string>
#include <vector>

#include "viewer/book/book_records.h"
#include "viewer/book/database.h"

namespace footing {

/// Swings as rows of the table and back: which column holds what stands here alone.

/// The columns that swing_from() reads, of a swing `w` and its shot `h`.
[[nodiscard]] std::string swing_selection();
[[nodiscard]] BookSwing swing_from(const Row& row);

/// Takes lesson, number and swing_cells().
[[nodiscard]] std::string swing_insertion();
/// Takes swing_cells() and the id.
[[nodiscard]] std::string swing_change();
[[nodiscard]] std::vector<Cell> swing_cells(const BookSwing& swing);

}  // namespace footing
