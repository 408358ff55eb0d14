#include "viewer/lesson/report_beside.h"

#include <filesystem>

#include "viewer/lesson/gather_student_report.h"
#include "viewer/lesson/write_report.h"

namespace footing {

std::string student_report_beside(const std::string& report) {
    return std::filesystem::path(report).replace_extension(".student.pdf").string();
}

Result<std::string> write_student_report_beside(const std::string& book, const std::string& recording,
                                                const std::string& report, ReportForm form) {
    auto opened = Book::open(book, OpenAs::to_read);
    if (!opened) return opened.problem();
    const auto lessons = opened.value().lessons(std::nullopt);
    if (!lessons) return lessons.problem();
    std::error_code ignored;
    const std::string file = std::filesystem::absolute(recording, ignored).lexically_normal().string();
    for (const LessonLine& line : lessons.value()) {
        if (line.recording_file != file) continue;
        StudentReportRequest request;
        request.student = "#" + std::to_string(line.lesson.student);
        request.lesson = line.lesson.id;
        request.form = form;
        request.limits.today = day_of_date(line.lesson.date).value_or(0);
        const auto gathered = gather_student_report(opened.value(), request);
        if (!gathered) return gathered.problem();
        const std::string path = student_report_beside(report);
        if (Outcome written = write_student_report(gathered.value(), path); !written)
            return written.problem();
        return path;
    }
    return std::string();
}

}  // namespace footing
