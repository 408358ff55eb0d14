#pragma once

#include "tests/support/lesson_track.h"

namespace footing::testing {

/// What golfers do between swings; each is one of these, and none is a swing.
struct Pastime {
    const char* what;
    void (*happen)(LessonTrack& track, Draws& draw);
};
void waggle(LessonTrack& track, Draws& draw);
/// One of them, drawn; `strange_ones` adds what others do (crossing, stamping, leaning on the club, taps).
[[nodiscard]] Pastime any_pastime(bool strange_ones, Draws& draw);

}  // namespace footing::testing
