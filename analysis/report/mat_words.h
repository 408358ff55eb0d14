#pragma once

#include <string>

#include "analysis/report/lesson_result.h"
#include "analysis/swing/swing_stance.h"

namespace footing {

/// How the feet on a mat were told apart, what else lay there, dead and clipped elements; in one line. Empty
/// for plates.
[[nodiscard]] std::string mat_words(const LessonResult& lesson);

/// "0.41 m wide, toes out 15° left and 8° right", or why it is not known.
[[nodiscard]] std::string stance_words(const SwingStance& stance, Hand hand);

}  // namespace footing
