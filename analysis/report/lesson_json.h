#pragma once

#include <string>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The object of `footing analyse --json`, indented. Times are seconds from the first frame;
/// lead shares are fractions; cop_m is in the stance frame, metres. What is not known is absent (events,
/// shares, measures) or null (body weight, an uncertainty); every number is finite. Text that is not UTF-8 is
/// made so.
[[nodiscard]] std::string lesson_json(const LessonResult& lesson);

}  // namespace footing
