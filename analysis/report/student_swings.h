#pragma once

#include "analysis/report/page_flow.h"
#include "analysis/report/student_report.h"

namespace footing {

/// Pages of the student's report that show swings.

/// The newest lessons side by side: what the swings of each have in common.
void draw_laid(PageFlow& flow, const StudentReport& report);

/// The newest recording's swings at a glance and laid over each other.
void draw_swings_together(PageFlow& flow, const StudentReport& report);

/// Each swing of the newest recording, all of them together, in a table; and each swing of the recordings
/// before it that the report is to draw.
void draw_swings(PageFlow& flow, const StudentReport& report);

}  // namespace footing
