#include "viewer/window/report_writer.h"

#include <chrono>
#include <utility>

#include "viewer/lesson/write_report.h"

namespace footing {

bool ReportWriter::step(ViewState& state) {
    if (writing_.valid()) {
        if (writing_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
        if (const Outcome written = writing_.get()) {
            state.notice = "The report is written: " + path_;
        } else {
            state.problem = written.problem();
        }
        return true;
    }
    if (state.report_wish.empty()) return false;
    path_ = std::exchange(state.report_wish, {});
    if (!state.lesson) return false;
    state.notice = "Writing the report";
    writing_ = std::async(std::launch::async, [lesson = state.lesson, path = path_, changed = changed_] {
        Outcome written = write_report(*lesson, path);
        if (changed) changed();
        return written;
    });
    return true;
}

}  // namespace footing
