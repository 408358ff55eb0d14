#pragma once

#include <cstddef>
#include <memory>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// The recorder's queue: deep, in order, and never dropping in silence. One thread pushes, one thread drains;
/// neither ever waits for the other, and nothing is allocated after construction.
///
/// When it is full, push_frame and push_gap return false and keep nothing: whoever pushes counts that and
/// puts a gap in its place as soon as there is room (Session does).
class FrameQueue {
  public:
    /// Room for `capacity_bytes` of records (a record is 72 bytes and the values) of frames with at most
    /// `most_values`.
    FrameQueue(std::size_t capacity_bytes, std::size_t most_values);
    ~FrameQueue();
    FrameQueue(const FrameQueue&) = delete;
    FrameQueue& operator=(const FrameQueue&) = delete;

    /// Pushing thread. False when there is no room, or the frame has more values than was said.
    [[nodiscard]] bool push_frame(const FrameView& frame);
    /// Pushing thread. False when there is no room.
    [[nodiscard]] bool push_gap(const Gap& gap);
    /// Pushing thread: whether a gap and a frame of the largest size would both go in now.
    [[nodiscard]] bool has_room() const;

    /// Draining thread: hands everything that was there at the call to the sink and returns how many frames
    /// that were.
    std::size_t drain(FrameSink& sink);
    /// Draining thread: whether nothing waits.
    [[nodiscard]] bool empty() const;

  private:
    struct Ring;
    std::unique_ptr<Ring> ring_;
};

}  // namespace footing
