#include "viewer/window/mark_keeper.h"

#include <chrono>
#include <utility>

#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

Result<LessonResult> keep_and_read(const std::string& recording, const CoachMarks& marks,
                                   const LessonLoader& load) {
    if (Outcome written = write_marks(recording, marks); !written) return written.problem();
    WorkWatch nobody_waits;
    return load(recording, nobody_waits);
}

}  // namespace

bool MarkKeeper::is_settled(const ViewState& state) const {
    return !work_.valid() && (state.lesson != kept_.lesson || state.marking.revision == kept_.revision);
}

bool MarkKeeper::step(ViewState& state) {
    if (work_.valid()) {
        if (work_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
        Result<LessonResult> read = work_.get();
        if (state.lesson != asked_.lesson) return false;  // another recording is open by now
        if (read) {
            state =
                show_again(std::make_shared<const LessonResult>(std::move(read).value()), std::move(state));
            kept_ = {state.lesson, asked_.marks, asked_.revision};
        } else {
            state.problem = read.problem();
            state.marking = {};
            state.marking.marks = kept_.marks;
            state.marking.revision = kept_.revision;
        }
        return true;
    }
    if (!state.lesson || state.desk) return false;
    if (state.lesson != kept_.lesson) kept_ = {state.lesson, state.marking.marks, state.marking.revision};
    if (state.marking.revision != kept_.revision) begin(state);
    return false;
}

void MarkKeeper::begin(const ViewState& state) {
    asked_ = {state.lesson, state.marking.marks, state.marking.revision};
    work_ = std::async(std::launch::async, [recording = state.lesson->facts.file, marks = asked_.marks,
                                            load = load_, changed = changed_] {
        Result<LessonResult> read = keep_and_read(recording, marks, load);
        if (changed) changed();
        return read;
    });
}

}  // namespace footing
