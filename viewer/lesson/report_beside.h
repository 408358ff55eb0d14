#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/report_form.h"

namespace footing {

/// Where the report for the student stands beside a report of the recording: "lesson.pdf" has
/// "lesson.student.pdf".
[[nodiscard]] std::string student_report_beside(const std::string& report);

/// Writes it where the book has a lesson with this recording, as of that lesson's day; the name of the new
/// file, or an empty one where the book has none. Fails as Book, gather_student_report() and
/// write_student_report() do.
[[nodiscard]] Result<std::string> write_student_report_beside(const std::string& book,
                                                              const std::string& recording,
                                                              const std::string& report,
                                                              ReportForm form = ReportForm::full);

}  // namespace footing
