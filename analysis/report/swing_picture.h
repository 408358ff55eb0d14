#pragma once

#include <cstddef>

#include "analysis/report/figure.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// One swing as a picture to share, 540 x 675 px (4 : 5): which swing and whose (only where the lesson names
/// the student), feet, rule and trace, its numbers in words, what its marks mean. `place` in
/// LessonResult::swings must exist.
[[nodiscard]] Figure swing_picture(const LessonResult& lesson, std::size_t place);

}  // namespace footing
