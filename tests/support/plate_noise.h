#pragma once

#include "tests/support/lesson_track.h"
#include "tests/support/swing_generator.h"

namespace footing::testing {

/// Sway, noise and faults of the plates laid over a lesson: what is measured, and the share that truly was.
void measure_lesson(const LessonPlan& plan, const LessonTrack& track, Draws& draw, GeneratedLesson& lesson);

}  // namespace footing::testing
