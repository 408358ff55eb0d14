#pragma once

#include <string>

#include "analysis/report/lesson_result.h"
#include "analysis/report/report_form.h"

namespace footing {

/// The lesson as one HTML file: escaped, no script, nothing fetched (a content-security policy forbids both),
/// headings, table headers, pictures with words for those who do not see them; readable on a phone.
/// Well-formed as XML too.
[[nodiscard]] std::string html_report(const LessonResult& lesson, ReportForm form = ReportForm::full);

}  // namespace footing
