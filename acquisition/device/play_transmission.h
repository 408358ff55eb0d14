#pragma once

#include <atomic>
#include <cstdint>

#include "acquisition/device/emulated_line.h"
#include "acquisition/device/play_wire_form.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/result.h"

namespace footing {

/// What was played.
struct PlayCount {
    std::uint64_t frames = 0;
    std::uint64_t packets = 0;  ///< that carry frames
    std::uint64_t descriptions = 0;
    std::uint64_t gaps = 0;            ///< that the listener will find
    std::uint64_t frames_missing = 0;  ///< in them
    std::uint64_t restarts =
        0;  ///< of the device, told by the recording; played as a silence, not as a restart
    enum class End { recording_over, stopped, reader_gone } end = End::recording_over;
};

/// Plays a recording over a line as its device sent it (wire format 1): the same frames at the same intervals
/// with the same counters, device times and inputs. Frames that were lost are not sent, so the counter jumps
/// where it jumped. The description goes out five times within half a second before, and again each second.
/// `frames` is open, at its start, and gives frames without waiting; `speed` is in times real time. Ends
/// early, with success, when `stop` becomes true or the reader leaves. Blocks its thread. Fails with
/// device_failed when the line does, bad_input when the recording cannot be read.
[[nodiscard]] Result<PlayCount> play(FrameSource& frames, const PlayWireForm& form, EmulatedLine& line,
                                     double speed, const std::atomic<bool>& stop);

}  // namespace footing
