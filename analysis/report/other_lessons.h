#pragma once

#include <string>
#include <vector>

#include "analysis/report/student_report.h"

namespace footing {

/// The lessons whose swings are not drawn one by one: number, date, how they were measured. Neighbours that
/// were not measured for one reason are one row, "3 to 9".
[[nodiscard]] std::vector<std::vector<std::string>> other_lessons(const StudentReport& report);

}  // namespace footing
