#pragma once

#include <cstdint>

namespace footing {

/// Host time as a straight line of device time, and how far arrivals lie from it.
struct ClockLine {
    double slope = 1.0;      ///< host nanoseconds per device nanosecond
    double offset_ns = 0.0;  ///< host_ns = offset_ns + slope * device_us * 1000
    double residual_sd_ns = 0.0;
};

/// Fits the line to all frames by least squares, one frame at a time, in constant memory (R5). Sums are kept
/// about the first frame and as running means (Welford 1962, Technometrics 4:419), so that hours of
/// nanoseconds do not cancel. The corrections never touch the raw stamps. The offset includes the mean delay
/// of the line, which no one-way stream can tell from the clocks.
class ClockFitter {
  public:
    void take(std::uint64_t device_time_us, std::int64_t host_time_ns);
    /// Slope 1 through the one point before there are two; all zero offset before there is one.
    [[nodiscard]] ClockLine line() const;
    /// Host time of a device time by the line, without the rounding that offset_ns alone brings for large
    /// stamps.
    [[nodiscard]] std::int64_t host_time_ns(std::uint64_t device_time_us) const;
    [[nodiscard]] std::uint64_t frames() const { return frames_; }

  private:
    [[nodiscard]] double slope() const;

    std::uint64_t frames_ = 0;
    std::uint64_t first_device_us_ = 0;
    std::int64_t first_host_ns_ = 0;
    double mean_device_ns_ = 0.0;  ///< since the first frame
    double mean_excess_ns_ = 0.0;  ///< of host over device, since the first frame
    double device_square_ = 0.0;
    double excess_square_ = 0.0;
    double product_ = 0.0;
};

}  // namespace footing
