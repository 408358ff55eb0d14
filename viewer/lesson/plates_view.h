#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/frame/calibration_state.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/problem.h"
#include "acquisition/frame/quality.h"
#include "viewer/calibration/calibration_plan.h"
#include "viewer/calibration/quick_check.h"

namespace footing {

/// What is done with the plates while nobody is taught.
enum class PlatesTask { listening, checking, calibrating };

/// A calibration that was made and kept.
struct KeptCalibration {
    std::string file;
    double share_u2 = 0.0;  ///< two standard uncertainties of a lead share of 75 %, as a fraction
    std::vector<std::string> remarks;
};

/// Plates that are listened to, as they are at one moment: plain data, made by the thread that listens, never
/// changed after.
struct PlatesView {
    enum class Stage { looking, heard, over } stage = Stage::looking;
    std::string source;
    double waited_s = 0.0;
    std::string hint;  ///< while nothing is heard: what to look at

    // Once heard:
    DeviceDescription device;
    std::string calibration;  ///< which one is in force, in one sentence
    CalibrationState calibration_state = CalibrationState::nominal;
    LossCounters losses;
    std::uint64_t frames = 0;
    double heard_rate_hz = 0.0;  ///< of the last second; 0 before one is over
    double newest_age_s = 0.0;
    double total_n = 0.0;          ///< means over a quarter of a second
    std::optional<double> left_n;  ///< absent where the feet cannot be told apart
    std::optional<double> right_n;
    double noise_n = 0.0;        ///< of the total within that time, standard deviation
    std::vector<double> cell_n;  ///< plates of cells: each by the calibration, less the zero; else empty
    std::optional<double> zero_age_s;
    ZeroAdvice zero_advice = ZeroAdvice::none_yet;
    ZeroRefusal zero_refusal = ZeroRefusal::none;

    PlatesTask task = PlatesTask::listening;
    std::size_t step = 0;  ///< of a check or calibration, from 0
    std::size_t steps = 0;
    std::string instruction;
    std::string remark;
    std::optional<CheckResult> checked;   ///< the newest check, once it is over
    std::optional<KeptCalibration> kept;  ///< the newest calibration, once it is kept
    std::optional<Problem> problem;       ///< why the newest task, or the listening, came to nothing
};

}  // namespace footing
