#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/paper.h"

namespace footing {

/// The lesson on paper, as the bytes of a PDF: facts, the headline figure, what to keep and what to
/// change, all swings at a glance; then two swings a page; a table; how to read it; cautions. Fonts are
/// embedded; the same lesson gives the same bytes. Fails only when the drawing library does.
[[nodiscard]] Result<std::string> pdf_report(const LessonResult& lesson, PaperSize size = PaperSize::a4);

}  // namespace footing
