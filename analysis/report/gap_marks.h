#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// How a gap in the frames looks on an axis of time: one wide enough to be seen is shaded; narrower ones are
/// ticks at the edge, so that many short gaps do not cover what was measured between them.
enum class GapLook { shaded, tick };

/// A stretch of an axis, px from its beginning.
struct GapMark {
    double from_px = 0.0;
    double to_px = 0.0;
    GapLook look = GapLook::tick;
};

struct GapMarks {
    std::vector<GapMark> marks;  ///< in order; ticks that would touch are one
    std::size_t short_gaps = 0;  ///< how many gaps the ticks stand for
};

/// The gaps (in order of time) that lie in `shown`, on an axis `length_px` long; what is narrower than
/// `least_px` becomes a tick of at least one px.
[[nodiscard]] GapMarks gap_marks(std::span<const TimeSpan> gaps, const TimeSpan& shown, double length_px,
                                 double least_px);

/// "41 short gaps".
[[nodiscard]] std::string short_gap_words(std::size_t short_gaps);

}  // namespace footing
