#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "acquisition/frame/frame.h"
#include "analysis/pressure/load_columns.h"
#include "analysis/pressure/load_trace.h"

namespace footing {

/// Puts samples on an even time base by the device's own counter and bridges lost frames by a straight line,
/// marked in LoadTrace::bridged. The rate is the median slope of device time over counter between instants
/// half a recording apart (after Theil 1950), so a few wrong stamps do not move it; where the device tells no
/// time, it is the nominal rate. Where that median is off the nominal rate but the rate from the first stamp
/// to the last is not, the stamps wander (a table with uneven times) and the latter holds. A gap is bridged
/// to at most an hour. Where the device restarted (which is told, or seen where its time and the host's jump
/// on together though the counter does not) the time that it was away is bridged too. Samples whose counter
/// does not go forward are taken as the next instant.
class TraceBuilder {
  public:
    explicit TraceBuilder(double nominal_rate_hz);

    /// Room for this many sampling instants, so that a long recording is not copied while it grows.
    void reserve(std::size_t instants);
    /// The device restarted after the frame of this counter (a gap of no known number of frames).
    void know_restart(std::uint64_t after_counter) { restarts_.push_back(after_counter); }
    /// Samples come in the order of their counters.
    void add(const FrameStamp& stamp, const LoadSample& sample);
    /// The same for frames in a row; `stamps` and the columns are of the same length.
    void add(std::span<const FrameStamp> stamps, const LoadColumns& loads);
    [[nodiscard]] LoadTrace finish() &&;

  private:
    [[nodiscard]] double estimated_rate_hz() const;
    [[nodiscard]] double median_rate_hz() const;
    void append_rows(const LoadColumns& loads, std::size_t from, std::size_t to);
    /// Sampling instants between the last sample and this one.
    [[nodiscard]] std::uint64_t missing_before(const FrameStamp& stamp) const;
    void bridge(std::uint64_t missing, const LoadSample& to);
    void append(const LoadSample& sample, std::uint8_t trigger, std::uint8_t bridged);

    /// Every so many samples the pair of counter and device time is kept, for the rate.
    struct Tick {
        std::uint64_t instant = 0;
        std::uint64_t device_time_us = 0;
    };

    double nominal_rate_hz_;
    std::uint64_t shortest_restart_us_;
    LoadTrace trace_;
    std::vector<Tick> ticks_;
    Tick newest_;
    std::vector<std::uint64_t> restarts_;
    FrameStamp last_;
    std::uint64_t samples_ = 0;
};

}  // namespace footing
