#include "viewer/lesson/write_report.h"

#include <algorithm>
#include <filesystem>

#include "acquisition/record/safe_file.h"
#include "analysis/report/canvas.h"
#include "analysis/report/csv_metadata.h"
#include "analysis/report/csv_report.h"
#include "analysis/report/html_report.h"
#include "analysis/report/pdf_report.h"
#include "analysis/report/student_html.h"
#include "analysis/report/student_pdf.h"
#include "analysis/report/swing_picture.h"

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

Result<std::string> bytes_of(const LessonResult& lesson, Form file, PaperSize paper, ReportForm form) {
    switch (file) {
        case Form::csv:
            return csv_report(lesson);
        case Form::html:
            return html_report(lesson, form);
        case Form::pdf:
            return pdf_report(lesson, paper, form);
    }
    return pdf_report(lesson, paper, form);
}

}  // namespace

Outcome check_report_name(const std::string& path) {
    const Result<Form> form = form_of(path);
    if (!form) return form.problem();
    return Done{};
}

Outcome write_report(const LessonResult& lesson, const std::string& path, PaperSize paper, ReportForm form) {
    const Result<Form> file = form_of(path);
    if (!file) return file.problem();
    const Result<std::string> bytes = bytes_of(lesson, file.value(), paper, form);
    if (!bytes) return bytes.problem();
    if (Outcome written = write_file_safely(path, bytes.value()); !written) return written;
    std::error_code ignored;
    if (file.value() != Form::csv || !std::filesystem::is_regular_file(path, ignored)) return Done{};
    return write_file_safely(path + "-metadata.json",
                             csv_metadata(lesson, std::filesystem::path(path).filename().string()));
}

Outcome check_student_report_name(const std::string& path) {
    const Result<Form> form = form_of(path);
    if (form && form.value() != Form::csv) return Done{};
    return Problem{ProblemKind::command_line, path, "a student's report cannot be written in this form",
                   "let the name end in .pdf or .html; \"footing book export\" writes tables"};
}

Outcome write_student_report(const StudentReport& report, const std::string& path, PaperSize paper) {
    if (Outcome name = check_student_report_name(path); !name) return name;
    const Result<std::string> bytes = form_of(path).value() == Form::pdf
                                          ? student_pdf(report, paper)
                                          : Result<std::string>(student_html(report));
    if (!bytes) return bytes.problem();
    return write_file_safely(path, bytes.value(), FileReaders::owner);
}

Outcome check_swing_picture_name(const std::string& path) {
    if (suffix_of(path) == ".png") return Done{};
    return Problem{ProblemKind::command_line, path, "a picture of a swing cannot be written in this form",
                   "let the name end in .png"};
}

Outcome write_swing_picture(const LessonResult& lesson, std::size_t number, const std::string& path) {
    if (Outcome name = check_swing_picture_name(path); !name) return name;
    constexpr double pixels_per_px = 2.0;
    const auto swing = std::ranges::find(lesson.swings, number, &Swing::index);
    if (swing == lesson.swings.end()) {
        return Problem{ProblemKind::command_line, "swing " + std::to_string(number),
                       "is not in " + lesson.facts.file,
                       "\"footing analyse " + lesson.facts.file + "\" lists its swings"};
    }
    const auto bytes = png_of(swing_picture(lesson, static_cast<std::size_t>(swing - lesson.swings.begin())),
                              Theme::print, pixels_per_px);
    if (!bytes) return bytes.problem();
    return write_file_safely(path, bytes.value());
}

}  // namespace footing
