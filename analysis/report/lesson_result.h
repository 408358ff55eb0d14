#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/verdict.h"

namespace footing {

struct TimeSpan {
    double from_s = 0.0;
    double to_s = 0.0;
};

/// Where a recording came from: its end is told in other words.
enum class RecordingOrigin { recorded, imported };

/// How well the device's clock and the computer's are brought together.
struct ClockQuality {
    double drift_ppm = 0.0;             ///< by how much the device's clock is fast
    std::optional<double> residual_ms;  ///< of the fit, standard deviation; absent in recordings without it
    double jitter_ms = 0.0;             ///< of arrivals about the fit, standard deviation
};

/// Who, when, with what: all that a reader of the numbers must know and that the numbers themselves do not
/// say.
struct LessonFacts {
    std::string file;     ///< as the person named it
    std::string student;  ///< may be empty
    Hand hand = Hand::right;
    std::string
        started;  ///< for people, with the zone: "2026-11-25 10:20:44 +01:00 Europe/Berlin"; may be empty
    std::string device;             ///< the device's name and serial number, or "imported from …"
    std::string calibration;        ///< which calibration, in one sentence, and whether it is still valid
    std::string zero;               ///< when and how the plates were zeroed, in one sentence
    PlateLayout layout;             ///< what to draw under the feet
    std::size_t dead_elements = 0;  ///< of a mat, filled in from their neighbours
    LossCounters losses;
    std::vector<TimeSpan> gaps;
    RecordingOrigin origin = RecordingOrigin::recorded;
    std::optional<ClockQuality> clock;  ///< absent for an import
    RecordingOutcome outcome = RecordingOutcome::clean;
    std::string cause;  ///< why it ended as it did; empty when clean
};

/// A whole recording, analysed. What the window, the reports and the JSON are made of.
struct LessonResult {
    LessonFacts facts;
    TargetBand band;
    double duration_s = 0.0;
    double rate_hz = 0.0;
    std::optional<double> body_weight_n;  ///< absent when only ratios are known or nobody stood still
    std::vector<Swing> swings;
    std::size_t swings_as_other_hand =
        0;  ///< looked for when none was found: how many the other hand would have
    std::vector<double> strikes_without_swing_s;  ///< the trigger spoke here, but no swing was found
    LoadTrace trace;
};

}  // namespace footing
