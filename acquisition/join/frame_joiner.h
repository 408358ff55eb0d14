#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <span>
#include <vector>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// Frames of several devices with clocks of their own, made one frame each at the sampling instants of the
/// first device, which is the time base: its values and stamp stay as they are. The values of each other
/// device are read off the straight line between the two frames of it around that instant, by the host's
/// time of all three (ClockFitter), and counts are rounded to whole counts. Between two frames there is a
/// line only where their counters are neighbours and the device did not restart: nothing is ever invented
/// over a gap. An instant at which a device has no such pair is left out; the counters of what is handed out
/// show it as they show any loss. An input is set when it was set on any device since the frame before.
///
/// Linear interpolation damps a sine of frequency f by cos(pi f / rate) at worst: under 0.2 % at 20 Hz and
/// 1 kHz. No delay in time; a frame is handed out once all devices have passed its instant.
///
/// One thread. Memory: `most_waiting` frames a device.
class FrameJoiner {
  public:
    /// `values`: of a frame of each device, in order.
    FrameJoiner(std::vector<std::size_t> values, std::size_t most_waiting);

    /// A frame of one device, in order of its counter; `host_ns`: its device time by the fit of its clock.
    void take_frame(std::size_t device, const FrameView& frame, std::int64_t host_ns, FrameSink& sink);
    /// A gap of one device, before the frame that follows it. A restart of the first device is handed on.
    void take_gap(std::size_t device, const Gap& gap);
    /// Nothing more comes: what waits is handed out or left out.
    void finish(FrameSink& sink);

    /// Instants of the first device that were left out because another device had no frames around them.
    [[nodiscard]] std::uint64_t left_out() const { return left_out_; }

  private:
    struct Waiting {
        FrameStamp stamp;
        std::int64_t host_ns = 0;
        bool starts_anew = false;  ///< the device restarted before it
        Gap restart;               ///< then
        std::vector<double> values;
    };
    struct Device {
        std::size_t values = 0;
        std::size_t first = 0;  ///< of its values in a joined frame
        std::deque<Waiting> frames;
        bool starts_anew = false;
        Gap restart;
        std::int64_t newest_ns = 0;
        bool any = false;
        std::uint16_t inputs = 0;  ///< set since the last joined frame
    };
    enum class Step { handed_out, left_out, must_wait };

    [[nodiscard]] Step step(FrameSink& sink, bool over);
    [[nodiscard]] Step look_at(Device& device, std::int64_t at_ns, bool over);
    void pop(Device& device);
    void hand_out(const Waiting& base, FrameSink& sink);

    std::vector<Device> devices_;
    std::size_t most_waiting_;
    std::vector<std::vector<double>> spare_;  ///< room of frames that are gone
    std::vector<double> joined_;
    std::vector<std::int32_t> counts_;
    bool physical_ = false;
    std::uint64_t left_out_ = 0;
};

}  // namespace footing
