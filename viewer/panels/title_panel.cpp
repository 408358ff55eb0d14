#include <algorithm>
#include <string>

#include "acquisition/frame/simulated_golfer.h"
#include "analysis/report/report_words.h"
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

void draw_title(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("title");
    const LessonFacts& facts = state.lesson->facts;
    const std::string student = facts.student.empty() ? "student not named" : facts.student;
    const std::string when = joined(file_name(facts.file), facts.started);
    const std::string restarts = restart_words(facts);
    std::string sound =
        joined(outcome_words(facts.outcome), restarts.empty() ? loss_words(facts.losses) : restarts);
    if (facts.outcome == RecordingOutcome::truncated || facts.outcome == RecordingOutcome::incomplete) {
        sound = joined(sound, facts.cause);
    }
    const std::string plates =
        joined(facts.calibration.empty() ? "calibration not known" : facts.calibration, facts.zero);

    // The left half has what it needs, at most half; the right has the rest.
    const float needed = std::max(canvas.text_width(one_line(student), TextSize::heading, TextWeight::bold),
                                  canvas.text_width(one_line(when), TextSize::small)) +
                         1.0F;
    Box left = box;
    Box right = box;
    left.right = left.left + std::min(needed, box.width() / 2.0F);
    right.left = left.right + canvas.px(32);

    // Where there is no room for both, the zero is told on hover.
    const bool both = canvas.text_width(one_line(plates), TextSize::small) <= right.width();

    const float first_line = canvas.px(28);
    canvas.text(left.cut_top(first_line), student, TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    canvas.text(left, when, TextSize::small, Ink::quiet);
    const TextWeight weight =
        facts.outcome == RecordingOutcome::clean && restarts.empty() ? TextWeight::regular : TextWeight::bold;
    const Box hover = right;
    canvas.text(right.cut_top(first_line), sound, TextSize::text, Ink::ink, Align::right, weight);
    // What nobody vouches for stands out (R17).
    const CalibrationState state_of_plates = facts.calibration_facts.state;
    const bool doubtful =
        state_of_plates != CalibrationState::valid && state_of_plates != CalibrationState::external;
    if (is_simulated_golfer(facts.device)) {
        canvas.text(right, "simulated golfer, not plates", TextSize::text, Ink::alarm, Align::right,
                    TextWeight::bold);
    } else {
        canvas.text(right, both || facts.calibration.empty() ? plates : facts.calibration, TextSize::small,
                    doubtful ? Ink::ink : Ink::quiet, Align::right);
    }
    if (touch("plates", hover) == Touch::hovered) {
        explain(one_line(joined(joined(facts.device, facts.calibration), facts.zero)).c_str());
    }
}

}  // namespace footing
