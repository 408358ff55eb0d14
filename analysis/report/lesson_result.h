#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/calibration_state.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/centre_of_mass.h"
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

/// How well the scale behind the loads is known; what a program must know of it (`LessonFacts::calibration`
/// tells people).
struct CalibrationFacts {
    CalibrationState state = CalibrationState::external;
    std::string made;               ///< ISO 8601 date; empty: not known
    std::string valid_until;        ///< ISO 8601 date; empty: no end stated
    double load_relative_u = 0.0;   ///< standard uncertainty of a plate's load, as a fraction, age included
    double ratio_relative_u = 0.0;  ///< the part that the plates do not share: what a lead share suffers from
    std::string method;             ///< "nominal", "physical", or how it was calibrated
    double record_relative_u = 0.0;  ///< load_relative_u without age …
    double common_relative_u = 0.0;  ///< … and the part of it that the plates share
};

/// How well the device's clock and the computer's are brought together.
struct ClockQuality {
    double drift_ppm = 0.0;             ///< by how much the device's clock is fast
    std::optional<double> residual_ms;  ///< of the fit, standard deviation; absent in recordings without it
    double jitter_ms = 0.0;             ///< of arrivals about the fit, standard deviation
    std::optional<double> joined_ms;    ///< how well frames of several devices belong together, standard
                                        ///< deviation; absent with one device
};

/// Who, when, with what: all that a reader of the numbers must know and that the numbers themselves do not
/// say.
struct LessonFacts {
    std::string file;     ///< as the person named it
    std::string student;  ///< may be empty
    Hand hand = Hand::right;
    std::string
        started;  ///< for people, with the zone: "2026-11-25 10:20:44 +01:00 Europe/Berlin"; may be empty
    std::int64_t started_utc_ns = 0;  ///< 0: not known
    std::string zone;                 ///< IANA name
    std::string device;               ///< the device's name and serial number, or "imported from …"
    std::string calibration;          ///< which calibration, in one sentence, and whether it is still valid
    CalibrationFacts calibration_facts;
    std::string zero;               ///< when and how the plates were zeroed, in one sentence
    PlateLayout layout;             ///< what to draw under the feet
    std::size_t dead_elements = 0;  ///< of a mat, filled in from their neighbours
    LossCounters losses;
    std::size_t impossible_frames = 0;  ///< with a load that no body makes; bridged as lost ones are
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
    double sure = usual_certainty;  ///< probability with which each verdict holds (docs/formulas.md, G8)
    double duration_s = 0.0;
    double rate_hz = 0.0;
    std::optional<double> body_weight_n;  ///< absent when only ratios are known or nobody stood still
    std::vector<Swing> swings;
    std::size_t swings_as_other_hand =
        0;  ///< how many the other hand would have, where it seems the right one; else 0
    std::vector<double> strikes_without_swing_s;  ///< the trigger spoke here, but no swing was found
    LoadTrace trace;
    std::optional<Pendulum> centre_of_mass;  ///< asked for: its estimate is shown beside the CoP
};

}  // namespace footing
