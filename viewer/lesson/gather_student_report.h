#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/student_report.h"
#include "viewer/book/book.h"

namespace footing {

/// Whose report, of which lessons. Without lesson and dates: the newest lesson.
struct StudentReportRequest {
    std::string student;                 ///< a name, or "#3"
    std::optional<std::int64_t> lesson;  ///< one lesson …
    std::string from;                    ///< … or those of a time: dates, both included; empty: no limit
    std::string to;
    std::optional<DistanceUnit> unit;  ///< absent: as the student plays
    DistanceOptions limits;            ///< of the distance chart; `today` too, unless the book goes on
    ReportForm form = ReportForm::full;
    EachSwing each_swing = EachSwing::of_newest;
    CardKind card = CardKind::steps;
    double sure = usual_certainty;
};

/// Reads what the report says from the book, as it was after the last of these lessons, and analyses the
/// newest recording of these lessons. A recording that is not found or cannot be read is told in the report,
/// not an error: the book still knows its numbers. Fails as Book does, and with command_line where the
/// student has no such lesson.
[[nodiscard]] Result<StudentReport> gather_student_report(Book& book, const StudentReportRequest& request);

}  // namespace footing
