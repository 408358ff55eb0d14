#pragma once

#include <string>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The lesson as text for a terminal, up to 110 columns: who, when and how well it was recorded, then one
/// line a swing with kind, shares at address, top and impact, the lowest, each with ± (twice the standard
/// uncertainty) and verdict, and the tempo. "-" where a number is not known.
[[nodiscard]] std::string lesson_table(const LessonResult& lesson);

}  // namespace footing
