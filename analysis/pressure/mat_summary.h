#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// How well a mat could tell what it shows, over a whole recording. Seconds in which somebody stood there.
struct MatSummary {
    double stood_s = 0.0;
    double one_area_s = 0.0;   ///< parted at the midline, since only one area could be a foot
    double in_a_line_s = 0.0;  ///< parted at the midline, since one foot was ahead of the other
    double other_s = 0.0;      ///< something else lay on the mat
    double most_other_n = 0.0;
    double clipped_s = 0.0;  ///< elements were at the end of their range
    std::size_t most_clipped = 0;
};

/// Of a trace with mat readings; all zero without.
[[nodiscard]] MatSummary mat_summary(const LoadTrace& trace);

/// "areas", "midline": how the feet were parted.
[[nodiscard]] const char* told_name(FeetTold told);
/// Why not by their areas; empty for areas.
[[nodiscard]] const char* midline_reason(FeetTold told);

}  // namespace footing
