#include <string>

#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

std::string joined(const std::string& first, const std::string& second) {
    if (first.empty()) return second;
    if (second.empty()) return first;
    return first + "  ·  " + second;
}

/// The last part of a path is what people know a file by.
std::string file_name(const std::string& path) {
    const std::size_t slash = path.find_last_of('/');
    return slash == std::string::npos || slash + 1 == path.size() ? path : path.substr(slash + 1);
}

}  // namespace

void draw_title(Canvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("title");
    const LessonFacts& facts = state.lesson->facts;
    Box left = box;
    Box right = left.cut_right(box.width() * 0.5F - canvas.px(12));
    left.right -= canvas.px(24);

    const float first_line = canvas.px(24);
    const std::string student = facts.student.empty() ? "student not named" : facts.student;
    canvas.text(left.cut_top(first_line), student, TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    canvas.text(left, joined(file_name(facts.file), facts.started), TextSize::small, Ink::quiet);

    std::string sound = joined(outcome_words(facts.outcome), loss_words(facts.losses));
    if (!facts.cause.empty() && facts.outcome != RecordingOutcome::clean &&
        facts.outcome != RecordingOutcome::lossy) {
        sound = joined(sound, facts.cause);
    }
    const TextWeight weight =
        facts.outcome == RecordingOutcome::clean ? TextWeight::regular : TextWeight::bold;
    const std::string plates =
        joined(facts.calibration.empty() ? "calibration not known" : facts.calibration, facts.zero);
    const Box hover = right;
    canvas.text(right.cut_top(first_line), sound, TextSize::text, Ink::ink, Align::right, weight);
    canvas.text(right, plates, TextSize::small, Ink::quiet, Align::right);
    if (touch("plates", hover) == Touch::hovered) {
        explain(one_line(joined(joined(facts.device, facts.calibration), facts.zero)).c_str());
    }
}

}  // namespace footing
