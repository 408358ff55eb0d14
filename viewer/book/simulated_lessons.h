#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "viewer/book/book_records.h"

namespace footing {

/// How many of these lessons were of the simulated golfer.
[[nodiscard]] std::size_t count_simulated(const std::vector<LessonLine>& lessons);

/// Those of them that the distances are made of.
[[nodiscard]] std::vector<LessonLine> with_carries(std::vector<LessonLine> lessons);

/// Which of these lessons were of the simulated golfer, as a sentence; empty where none was. It stands
/// wherever numbers are made of a student's swings, since those of such a lesson are nobody's.
[[nodiscard]] std::string simulated_lessons_words(const std::vector<LessonLine>& lessons);

}  // namespace footing
