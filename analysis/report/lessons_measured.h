#pragma once

#include <string>
#include <vector>

#include "analysis/report/student_report.h"

namespace footing {

/// Of each lesson: number, date, how it was measured. Neighbours that were not measured for one
/// reason are one row, "3 to 9". Empty for one lesson that is drawn, whose facts stand by themselves.
[[nodiscard]] std::vector<std::vector<std::string>> lessons_measured(const StudentReport& report);

}  // namespace footing
