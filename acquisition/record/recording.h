#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/units.h"

namespace footing {

/// A pair of clocks read at the same moment, so that steady host times can be told as wall time (R6).
struct ClockPair {
    std::int64_t steady_ns = 0;
    std::int64_t utc_ns = 0;
};

/// Host time as a function of device time (R5). The raw stamps of both stand beside it, frame by frame.
struct ClockFit {
    double slope = 1.0;      ///< host_ns = offset_ns + slope * device_us * 1000, over the longest stretch
    double offset_ns = 0.0;  ///< the same
    double residual_sd_ns = 0.0;  ///< of the arrival times about the fit: the jitter of the line
    double fit_residual_ns =
        0.0;  ///< of the points the fit is drawn through, standard deviation; 0 in recordings without knots
    double worst_late_ns = 0.0;    ///< the latest arrival behind the earliest near it
    std::vector<ClockKnot> knots;  ///< straight between them; empty: the line alone
};

/// By how many millionths the device's clock is fast against the host's.
[[nodiscard]] inline double drift_ppm(const ClockFit& fit) {
    return fit.slope > 0.0 ? (1.0 / fit.slope - 1.0) * 1e6 : 0.0;
}

/// Something that happened while recording and is no frame: zeroed, unplugged, marked by the coach. In words.
struct RecordingNote {
    std::int64_t host_time_ns = 0;
    std::string text;
    friend bool operator==(const RecordingNote&, const RecordingNote&) = default;
};

/// A swing as it was found live, in seconds from the first frame. The analysis of the whole lesson may find
/// more.
struct SwingMark {
    double from_s = 0.0;
    double to_s = 0.0;
    friend bool operator==(const SwingMark&, const SwingMark&) = default;
};

/// One of several devices that were recorded as one lesson. Its frames stand in the recording as they came
/// (R5, R6); those of the recording itself are joined from them (FrameJoiner).
struct JoinedDevice {
    DeviceDescription device;
    std::string origin;
    std::string calibration_json;  ///< of this device; empty: nominal newtons per count
    LossCounters losses;
    ClockFit clock;
    std::vector<Gap> gaps;
    std::uint64_t frame_count = 0;
};

/// Everything in a recording but its frames.
struct RecordingInfo {
    std::string uuid;  ///< RFC 4122, version 4
    std::string zone;  ///< IANA name of the time zone, or "UTC"
    ClockPair start;
    ClockPair end;
    ClockFit clock;
    Hand hand = Hand::right;
    std::string program_version;
    std::string
        origin;  ///< for people: "UDP 0.0.0.0:9750", "/dev/serial/by-id/…", "imported from swings.csv"
    DeviceDescription device;
    std::string
        calibration_json;  ///< the calibration record in force, as text; empty: nominal newtons per count
    std::uint64_t frame_count = 0;
    LossCounters losses;
    std::vector<Gap> gaps;
    std::vector<RecordingNote> notes;
    std::vector<SwingMark> swings;
    RecordingOutcome outcome = RecordingOutcome::clean;
    std::string cause;  ///< why it ended as it did, one sentence; empty when clean
    /// In the order of their plates in `device`; the first one's clock is the time base. Empty: there was
    /// only one device.
    std::vector<JoinedDevice> devices;
};

/// How well the frames of the joined devices are known to belong together in time, ns; 0 with one device.
[[nodiscard]] double joined_residual_ns(const RecordingInfo& info);

}  // namespace footing
