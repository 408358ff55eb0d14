#pragma once

#include <cstddef>

#include "analysis/report/page_flow.h"
#include "analysis/report/student_report.h"

namespace footing {

inline constexpr std::size_t most_name_on_paper = 60;  ///< characters

/// Page one of the student's report, on paper: three things with a picture each, what to practise, the card.
void draw_page_one(PageFlow& flow, const StudentReport& report);

}  // namespace footing
