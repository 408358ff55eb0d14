#pragma once

#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The teaching numbers that the lesson's first table has no room for, as words: one table for the terminal,
/// the page and the paper. Only columns of which something is known; "–" where a number is not.
struct MoreNumbers {
    std::vector<std::string> names;              ///< of the columns; the first is the swing's number
    std::vector<std::vector<std::string>> rows;  ///< one a swing, as long as `names`
    std::vector<std::string> notes;              ///< what the columns that are there mean, a sentence each
};
[[nodiscard]] MoreNumbers more_numbers(const LessonResult& lesson);

}  // namespace footing
