#include "analysis/report/write_report.h"

#include <filesystem>

#include "analysis/report/csv_report.h"
#include "analysis/report/html_report.h"
#include "analysis/report/pdf_report.h"
#include "analysis/report/safe_file.h"

namespace footing {

namespace {

/// ASCII only, whatever the locale: in Turkish the capital of "i" is not "I".
std::string lower_case(std::string text) {
    for (char& letter : text) {
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    }
    return text;
}

}  // namespace

Outcome write_report(const LessonResult& lesson, const std::string& path) {
    const std::string suffix = lower_case(std::filesystem::path(path).extension().string());
    if (suffix == ".csv") return write_file_safely(path, csv_report(lesson));
    if (suffix == ".html" || suffix == ".htm") return write_file_safely(path, html_report(lesson));
    if (suffix == ".pdf") {
        const Result<std::string> pdf = pdf_report(lesson);
        if (!pdf) return pdf.problem();
        return write_file_safely(path, pdf.value());
    }
    return Problem{ProblemKind::command_line, path, "a report cannot be written in this form",
                   "let the name end in .pdf, .html or .csv"};
}

}  // namespace footing
