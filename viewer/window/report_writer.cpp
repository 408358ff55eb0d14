#include "viewer/window/report_writer.h"

#include <chrono>
#include <filesystem>
#include <system_error>
#include <utility>

#include "viewer/lesson/report_beside.h"
#include "viewer/lesson/write_report.h"

namespace footing {

namespace {

/// The names first: the folder may be long.
std::string written_words(const std::filesystem::path& path, bool for_student) {
    std::string words = "The report is written: " + path.filename().string();
    const std::filesystem::path students = student_report_beside(path.string());
    if (std::error_code ignored; for_student && std::filesystem::exists(students, ignored))
        words += ", and the student's: " + students.filename().string();
    std::error_code not_known;
    const std::filesystem::path whole = std::filesystem::absolute(path, not_known);
    return words + ". In the folder " + (not_known ? path : whole).parent_path().string();
}

}  // namespace

bool ReportWriter::step(ViewState& state) {
    if (writing_.valid()) {
        if (writing_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
        if (const Outcome written = writing_.get()) {
            state.notice = written_words(path_, for_student_);
        } else {
            state.problem = written.problem();
        }
        return true;
    }
    if (state.report_wish.empty()) return false;
    path_ = std::exchange(state.report_wish, {});
    if (!state.lesson) return false;
    state.notice = "Writing the report";
    const std::string book = state.book && state.book->facts ? state.book->facts->file : "";
    for_student_ = !book.empty();
    writing_ = std::async(std::launch::async,
                          [lesson = state.lesson, path = path_, changed = changed_, book,
                           form = state.report_form]() -> Outcome {
                              Outcome written = write_report(*lesson, path, PaperSize::a4, form);
                              if (written && !book.empty()) {
                                  const auto beside =
                                      write_student_report_beside(book, lesson->facts.file, path, form);
                                  if (!beside) written = beside.problem();
                              }
                              if (changed) changed();
                              return written;
                          });
    return true;
}

}  // namespace footing
