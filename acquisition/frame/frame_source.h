#pragma once

#include <chrono>
#include <string>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Takes what a source hands out, in the order in which it happened. Called on the thread that polls the
/// source; must not block, allocate or throw.
class FrameSink {
  public:
    virtual ~FrameSink() = default;
    /// A frame, in order of its counter, never twice. Valid during the call only.
    virtual void take_frame(const FrameView& frame) = 0;
    /// Frames that never came. Called before the frame that follows the gap.
    virtual void take_gap(const Gap& gap) = 0;
};

enum class SourceState {
    waiting,   ///< nothing heard yet, or a device that was heard went silent
    running,   ///< frames come
    finished,  ///< a recording has come to its end
};

/// The one door by which frames come in: plates on a line, or a recording played again.
/// The consumer cannot tell which it is. One thread calls all of these.
class FrameSource {
  public:
    virtual ~FrameSource() = default;

    /// Opens the port or the file and waits until the layout is known, at most `patience`.
    /// Fails with device_failed (port taken, nothing heard) or bad_input (not a recording).
    virtual Result<DeviceDescription> open(std::chrono::milliseconds patience) = 0;

    /// Hands everything that has come since the last call to the sink; when there is nothing, waits at most
    /// `patience`.
    virtual Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) = 0;

    /// What was lost so far, by kind.
    [[nodiscard]] virtual LossCounters losses() const = 0;

    /// For people: "UDP 127.0.0.1:9750", "lesson.h5".
    [[nodiscard]] virtual std::string name() const = 0;
};

}  // namespace footing
