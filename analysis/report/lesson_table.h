#pragma once

#include <cstddef>
#include <string>

#include "analysis/report/lesson_result.h"
#include "analysis/report/text_table.h"

namespace footing {

/// The lesson as text for a terminal of `widest` columns: who, when and how well it was recorded, then one
/// line a swing with kind, time of impact (seconds from the first frame, as marks want it), shares at
/// address, top and impact, the lowest, each with ± (twice the standard uncertainty) and verdict, and the
/// tempo. "-" where a number is not known; where no share is, why.
[[nodiscard]] std::string lesson_table(const LessonResult& lesson, std::size_t widest = TableRoom::no_limit);

/// The other teaching numbers, a table of their own with a line for each column's meaning; empty without
/// swings.
[[nodiscard]] std::string more_numbers_table(const LessonResult& lesson,
                                             std::size_t widest = TableRoom::no_limit);

}  // namespace footing
