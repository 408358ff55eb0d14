#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/recording.h"
#include "acquisition/record/recording_reader.h"
#include "acquisition/record/recording_writer.h"

namespace footing {

/// Takes what several devices sent, in about the order in which it came.
class DeviceSink {
  public:
    virtual ~DeviceSink() = default;
    virtual Outcome take_frame(std::size_t device, const FrameView& frame) = 0;
    virtual void take_gap(std::size_t device, const Gap& gap) = 0;
};

/// Hands all of it to the sink. It is called twice and does the same both times.
using DeviceFeed = std::function<Outcome(DeviceSink&)>;

/// What became of the frames of several devices.
struct DevicesFolded {
    std::uint64_t frames = 0;           ///< joined
    std::uint64_t device_frames = 0;    ///< of all devices
    std::uint64_t frames_in_holes = 0;  ///< of all devices, that no recorded gap tells of
    std::int64_t newest_host_ns = 0;
    double duration_s = 0.0;  ///< of the joined frames
};

/// Writes the frames of the devices as they came, fits their clocks over the whole lesson, and then writes
/// what they make together (FrameJoiner). Sets frames, gaps, losses.frames and clock of `info` and of its
/// devices. Memory: the frames that wait for another device, at most 65,536 of each.
[[nodiscard]] Result<DevicesFolded> fold_devices(const DeviceFeed& feed, RecordingWriter& writer,
                                                 RecordingInfo& info);

/// The frames and gaps of a recording's devices, without what is damaged.
[[nodiscard]] DeviceFeed feed_of(RecordingReader& reader, const RecordingCheck& check);

}  // namespace footing
