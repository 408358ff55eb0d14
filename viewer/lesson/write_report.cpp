#include "viewer/lesson/write_report.h"

#include <filesystem>

#include "acquisition/record/safe_file.h"
#include "analysis/report/csv_report.h"
#include "analysis/report/html_report.h"
#include "analysis/report/pdf_report.h"

namespace footing {

namespace {

/// ASCII only, whatever the locale: in Turkish the capital of "i" is not "I".
std::string lower_case(std::string text) {
    for (char& letter : text) {
        if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
    }
    return text;
}

std::string suffix_of(const std::string& path) {
    return lower_case(std::filesystem::path(path).extension().string());
}

enum class Form { csv, html, pdf };

Result<Form> form_of(const std::string& path) {
    const std::string suffix = suffix_of(path);
    if (suffix == ".csv") return Form::csv;
    if (suffix == ".html" || suffix == ".htm") return Form::html;
    if (suffix == ".pdf") return Form::pdf;
    return Problem{ProblemKind::command_line, path, "a report cannot be written in this form",
                   "let the name end in .pdf, .html or .csv"};
}

Result<std::string> bytes_of(const LessonResult& lesson, Form form) {
    switch (form) {
        case Form::csv:
            return csv_report(lesson);
        case Form::html:
            return html_report(lesson);
        case Form::pdf:
            return pdf_report(lesson);
    }
    return pdf_report(lesson);
}

}  // namespace

Outcome check_report_name(const std::string& path) {
    const Result<Form> form = form_of(path);
    if (!form) return form.problem();
    return Done{};
}

Outcome write_report(const LessonResult& lesson, const std::string& path) {
    const Result<Form> form = form_of(path);
    if (!form) return form.problem();
    const Result<std::string> bytes = bytes_of(lesson, form.value());
    if (!bytes) return bytes.problem();
    return write_file_safely(path, bytes.value());
}

}  // namespace footing
