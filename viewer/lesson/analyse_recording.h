#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "acquisition/frame/work_watch.h"
#include "analysis/report/lesson_result.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Whether the coach's marks beside the recording are applied.
enum class MarksAre { applied, left_out };

/// What the person asks for beyond the recording itself.
struct AnalysisRequest {
    TargetBand band;
    std::optional<Hand> hand;       ///< absent: the hand that the recording was made with
    std::string student;            ///< for people only; never part of a path
    double sure = usual_certainty;  ///< probability with which a verdict must hold, above 0.5
    MarksAre marks = MarksAre::applied;
    double share_floor = 0.5;                               ///< time under this lead share is told
    std::optional<Pendulum> centre_of_mass = std::nullopt;  ///< asked for: an estimate beside the CoP
    WorkWatch* watch =
        nullptr;  ///< told how far it is, where somebody waits; given up, it ends with given_up()
};

/// Reads a recording from the first frame to the last and analyses it: counts to newtons, loads and centre of
/// pressure, swings, events, verdicts. Blocks for as long as that takes (a second for an hour at 1 kHz x 8
/// cells): call it on a worker thread where a window is open. Fails with bad_input when the file is not a
/// sound recording, or the coach's marks beside it (marks_file.h) are damaged or those of another one.
Result<LessonResult> analyse_recording(const std::string& path, const AnalysisRequest& request);

}  // namespace footing
