#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/paper.h"
#include "analysis/report/report_form.h"

namespace footing {

/// The lesson on paper, as the bytes of a PDF: facts, the headline figure, what to keep and what to
/// change, all swings at a glance, in a table, laid over each other; then two swings a page; more numbers;
/// how to read it; cautions. The brief form has neither swing by swing nor the tables. Fonts are embedded;
/// the same lesson gives the same bytes. Fails only when the drawing library does.
[[nodiscard]] Result<std::string> pdf_report(const LessonResult& lesson, PaperSize size = PaperSize::a4,
                                             ReportForm form = ReportForm::full);

}  // namespace footing
