#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/decode/clock_curve.h"
#include "acquisition/decode/clock_window.h"

namespace footing {

/// A device time and the host time that belongs to it.
struct ClockKnot {
    std::uint64_t device_time_us = 0;
    std::int64_t host_time_ns = 0;
    friend bool operator==(const ClockKnot&, const ClockKnot&) = default;
};

/// Which arrivals the fitted time stands for.
enum class ArrivalEdge {
    least_delayed,  ///< the earliest of each stretch: delays have a sharp lower edge, as on real lines
    middle,         ///< the median of each stretch: arrivals are spread to both sides
};

/// Host time as a function of device time, and how far it can be trusted.
struct ClockLine {
    double slope = 1.0;          ///< host nanoseconds per device nanosecond, over the longest stretch
    double offset_ns = 0.0;      ///< host_ns = offset_ns + slope * device_us * 1000
    double jitter_sd_ns = 0.0;   ///< of arrivals about the fit, standard deviation
    double worst_late_ns = 0.0;  ///< the latest arrival behind the earliest near it
    double residual_ns = 0.0;    ///< of the fit: of the points it is drawn through, standard deviation
    ArrivalEdge edge = ArrivalEdge::least_delayed;
    std::vector<ClockKnot> knots;  ///< in order of device time; straight between them

    /// By the knots; before the first and behind the last by the slope. 0 without knots.
    [[nodiscard]] std::int64_t host_time_ns(std::uint64_t device_time_us) const;
};

/// Fits host time to device time from one-way arrivals (R5). Packets come late, never early; in bursts; and a
/// clock's rate changes slowly. Each stretch of device time gives one point: the arrival that was least
/// delayed, or, where arrivals have no sharp lower edge, the median. A line that may bend is fitted through
/// the points and does not follow stretches that are far off (ClockCurve). The raw stamps are never touched.
/// The least delay of the line itself, which no one-way stream can tell from the clocks, stays in the offset.
///
/// Bounded memory (about 50 kB), constant time a frame apart from a fit (some 0.1 ms) when a stretch ends, at
/// most eight a second of device time; allocates on construction and in line() only.
class ClockFitter {
  public:
    ClockFitter();

    void take(std::uint64_t device_time_us, std::int64_t host_time_ns);
    /// The device has started again: what comes has another offset.
    void restart();

    /// Everything taken so far.
    [[nodiscard]] ClockLine line() const;
    /// By the fit as of the last stretch that ended; before that, the first arrival at the nominal rate. 0
    /// before a frame came.
    [[nodiscard]] std::int64_t host_time_ns(std::uint64_t device_time_us) const;
    /// Of the fit, as of the last stretch that ended: of the points it is drawn through, standard deviation.
    [[nodiscard]] double residual_ns() const { return curve_.residual(); }
    /// Standard deviation of arrivals about the fit, as of the last stretch that ended.
    [[nodiscard]] double jitter_sd_ns() const;
    [[nodiscard]] double worst_late_ns() const { return spread_.worst_late_ns; }
    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    [[nodiscard]] bool is_settled() const { return curve_.knots() >= 2; }

  private:
    static constexpr std::size_t most_points = 512;
    static constexpr std::size_t most_knots_kept = 512;
    static constexpr double first_stretch_ns = 0.125e9;

    [[nodiscard]] double device_ns(std::uint64_t device_time_us) const;
    [[nodiscard]] ArrivalEdge edge() const;
    [[nodiscard]] std::int64_t fitted_ns(double device_ns) const;
    void end_stretch();
    void fit();
    void merge_points();
    void keep_knots();

    std::uint64_t frames_ = 0;
    std::uint64_t first_device_us_ = 0;
    std::int64_t first_host_ns_ = 0;
    double newest_device_ns_ = 0.0;
    double stretch_ns_ = first_stretch_ns;
    ClockWindow window_;
    std::vector<ClockPoint> points_;      ///< since the device last started
    std::vector<CurvePoint> fit_points_;  ///< room for them while fitting
    ClockCurve curve_;
    double curve_begins_ns_ = 0.0;
    ArrivalSpread spread_;
    std::vector<ClockKnot> earlier_knots_;  ///< of the stretches before the device last started
    double earlier_square_ = 0.0;           ///< frames x residual squared of them
    double earlier_frames_ = 0.0;
    double longest_ns_ = 0.0;  ///< of them
    double longest_slope_ = 0.0;
    ClockKnot longest_begin_;
};

}  // namespace footing
