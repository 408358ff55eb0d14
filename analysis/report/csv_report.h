#pragma once

#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The swings as CSV by RFC 4180 (lines end with CR LF), one row a swing under one row of names; shares are
/// fractions, times are seconds from the first frame, CoP in the stance frame in metres. What is not known is
/// an empty field; numbers have nine digits. When it started is a moment of local time as spreadsheets know
/// it (2026-05-14 10:20:30), its zone a column of its own. Free text is guarded against formulas; numbers
/// never are.
[[nodiscard]] std::string csv_report(const LessonResult& lesson);

/// A column of it: its name, and what its fields are.
enum class CsvHolds { text, number, moment };
struct CsvColumn {
    std::string name;
    CsvHolds holds = CsvHolds::text;
};
[[nodiscard]] std::vector<CsvColumn> csv_columns(const LessonResult& lesson);

}  // namespace footing
