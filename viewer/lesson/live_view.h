#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/frame/calibration_state.h"
#include "acquisition/frame/problem.h"
#include "acquisition/frame/units.h"
#include "analysis/report/lesson_result.h"
#include "analysis/swing/set_up_watch.h"
#include "viewer/lesson/recording_session.h"

namespace footing {

/// How far a lesson under way has come.
enum class LessonStage {
    looking_for_plates,
    running,
    closing,  ///< the recording is being closed and folded
    closed,   ///< a whole recording is there
    failed,   ///< it never began, or the recording could not be closed; `problem` says how to go on
};

/// A lesson under way as it is at one moment: plain data, made by the lesson's own thread, never changed
/// after.
struct LiveView {
    LessonStage stage = LessonStage::looking_for_plates;
    std::string file;  ///< the recording
    std::string uuid;  ///< of the recording; empty until it has begun
    std::int64_t start_utc_ns = 0;
    std::string zone;       ///< in which it began
    std::string source;     ///< where the frames come from, for people
    double waited_s = 0.0;  ///< for the plates, or so far
    std::string hint;       ///< while nothing is heard: what to look at

    std::string device;  ///< name and serial number
    std::string calibration;
    CalibrationState calibration_state = CalibrationState::nominal;
    RecordingProgress progress;
    double recent_loss = 0.0;  ///< of the frames due in the last seconds, the part that is lost
    std::uint64_t newest_time_us = 0;  ///< by the device's clock: the newest frame that what follows knows of
    std::optional<double> zero_age_s;
    ZeroAdvice zero_advice = ZeroAdvice::none_yet;
    SetUpReading set_up;
    std::optional<double> weight_n;           ///< the student's, as told or as first seen standing still
    std::optional<double> weight_difference;  ///< of who stood still there last, as a fraction of it (R19)

    /// All swings so far, and the loads while they happened; between swings no loads are kept here.
    std::shared_ptr<const LessonResult> lesson;

    std::string closing_words;       ///< once closed: what was recorded and how it ended (R11)
    std::optional<Problem> problem;  ///< why it failed, or why no more is recorded
};

/// Whether so many frames are lost that nobody can be seen to stand still: from 3 % on (docs/measurements.md
/// says what was tried).
inline constexpr double lossy_from = 0.03;
[[nodiscard]] inline bool is_lossy(const LiveView& live) {
    return live.recent_loss >= lossy_from;
}

}  // namespace footing
