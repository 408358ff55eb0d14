#pragma once

#include <string>

#include "analysis/report/student_report.h"

namespace footing {

/// The student's report as one HTML file with what the paper has (student_pdf.h): escaped, no script, nothing
/// fetched (a content-security policy forbids both), headings, table headers, pictures with words for those
/// who do not see them; readable on a phone. Well-formed as XML too.
[[nodiscard]] std::string student_html(const StudentReport& report);

}  // namespace footing
