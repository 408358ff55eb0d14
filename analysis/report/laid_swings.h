#pragma once

#include <string>

#include "analysis/report/figure.h"
#include "analysis/report/student_report.h"

namespace footing {

/// Lessons side by side, each with what its swings have in common. Needs two of them.
[[nodiscard]] bool shows_laid(const StudentReport& report);

/// What the pictures show, and that there are no more of them than most_laid.
[[nodiscard]] std::string laid_words(const StudentReport& report);

/// "Lesson 12 · 2026-05-14 · 8 shots".
[[nodiscard]] std::string laid_title(const StudentReport& report, const LaidSwings& laid);

/// A small picture: mean, where the true mean lies, where the next swing is to be expected.
[[nodiscard]] Figure laid_figure(const LaidSwings& laid, double width, double height);

}  // namespace footing
