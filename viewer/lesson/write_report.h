#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// Whether a report can be written under this name, by its suffix; command_line when not. Ask before long
/// work.
[[nodiscard]] Outcome check_report_name(const std::string& path);

/// Writes the report that the suffix of `path` asks for: .pdf, .html (or .htm), .csv. An existing file is
/// replaced only by a whole new one (R14). Fails with command_line for another suffix, disk_failed when the
/// disk refuses.
[[nodiscard]] Outcome write_report(const LessonResult& lesson, const std::string& path);

}  // namespace footing
