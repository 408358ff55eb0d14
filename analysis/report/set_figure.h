#pragma once

#include <string>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/report/lesson_result.h"
#include "analysis/swing/swing_set.h"

namespace footing {

/// Whether a set's single swings are drawn, or what they have in common alone, for small pictures.
enum class SetDetail { every_swing, together };

/// Swings of one kind laid over each other by takeaway, turnaround, impact and finish: each a thin line,
/// their mean a bold one within its simultaneous 95 % confidence band, dashed where the next swing is to be
/// expected, and the odd ones out drawn dark and named. Share across, time down, like all pictures. Needs a
/// set with a mean (SwingSet::together).
[[nodiscard]] Figure set_figure(const LessonResult& lesson, const SwingSet& set, double width, double height,
                                SetDetail detail = SetDetail::every_swing);

/// The same as a picture of its own: with whose swings they are above it, and what the lines are below.
[[nodiscard]] Figure titled_set_figure(const LessonResult& lesson, const SwingSet& set, double width,
                                       double height);

/// What the picture shows, a sentence each, the odd ones out included.
[[nodiscard]] std::vector<std::string> set_words(const LessonResult& lesson, const SwingSet& set);

}  // namespace footing
