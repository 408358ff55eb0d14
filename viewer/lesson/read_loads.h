#pragma once

#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/result.h"
#include "acquisition/frame/work_watch.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/pressure/load_uncertainty.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// A recording as loads over time, with what must be known beside them.
struct RecordedLoads {
    LessonFacts facts;
    Calibration calibration;
    LoadTrace trace;
    ValueUncertainty uncertainty;  ///< what calibration and zeros leave open
};

/// Reads a recording from the first frame to the last: counts to newtons by the calibration it holds (else
/// the device's nominal scale), zeros found in it, loads and centre of pressure. Where the device states no
/// newtons per count, the scale is guessed from the load of whoever stands there, and only ratios hold. Fails
/// with bad_input when the file is no sound recording, and with given_up() soon after `watch` was given up.
Result<RecordedLoads> read_loads(const std::string& path, WorkWatch* watch = nullptr);

}  // namespace footing
