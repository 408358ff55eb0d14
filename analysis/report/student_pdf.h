#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/paper.h"
#include "analysis/report/student_report.h"

namespace footing {

/// The report that the student takes home, as the bytes of a PDF. Page one is for the student: three things
/// in plain words with a picture each, what to practise, the distance card to cut out. Then the evidence
/// (each swing, all of them together, every shot, the lessons), how it was measured, cautions. Fonts are
/// embedded; the same report gives the same bytes. Fails only when the drawing library does.
[[nodiscard]] Result<std::string> student_pdf(const StudentReport& report, PaperSize size = PaperSize::a4);

/// What a report says of itself: "Report for NAME".
[[nodiscard]] std::string student_title(const StudentReport& report);

}  // namespace footing
