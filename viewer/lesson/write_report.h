#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/paper.h"
#include "analysis/report/student_report.h"

namespace footing {

/// Whether a report can be written under this name, by its suffix; command_line when not. Ask before long
/// work.
[[nodiscard]] Outcome check_report_name(const std::string& path);

/// Writes the report that the suffix of `path` asks for: .pdf, .html (or .htm), .csv; beside a table its
/// description, PATH-metadata.json. An existing file is replaced only by a whole new one (R14). Fails with
/// command_line for another suffix, disk_failed when the disk refuses.
[[nodiscard]] Outcome write_report(const LessonResult& lesson, const std::string& path,
                                   PaperSize paper = PaperSize::a4, ReportForm form = ReportForm::full);

/// The same for the student's report: .pdf or .html; readable by its owner only, since it is a person's.
[[nodiscard]] Outcome check_student_report_name(const std::string& path);
[[nodiscard]] Outcome write_student_report(const StudentReport& report, const std::string& path,
                                           PaperSize paper = PaperSize::a4);

/// One swing, by its number, as a picture to share. Fails with command_line where there is no such swing or
/// `path` does not end in .png.
[[nodiscard]] Outcome check_swing_picture_name(const std::string& path);
[[nodiscard]] Outcome write_swing_picture(const LessonResult& lesson, std::size_t number,
                                          const std::string& path);

}  // namespace footing
