#pragma once

#include <optional>
#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "analysis/report/lesson_result.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// What the person asks for beyond the recording itself.
struct AnalysisRequest {
    TargetBand band;
    std::optional<Hand> hand;  ///< absent: the hand that the recording was made with
    std::string student;       ///< for people only; never part of a path
};

/// Reads a recording from the first frame to the last and analyses it: counts to newtons, loads and centre of
/// pressure, swings, events, verdicts. Blocks for as long as that takes (a second for an hour at 1 kHz x 8
/// cells): call it on a worker thread where a window is open. Fails with bad_input when the file is not a
/// sound recording.
Result<LessonResult> analyse_recording(const std::string& path, const AnalysisRequest& request);

}  // namespace footing
