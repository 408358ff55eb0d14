#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// The screen's queue: shallow, and the newest wins. One thread pushes, one thread drains; neither ever waits
/// for the other, and nothing is allocated after construction.
///
/// When the draining thread has fallen behind by the whole queue, the oldest frames give way. What is drained
/// then has a hole, which the sink is told of as a gap; the recording is not touched by it.
class LiveQueue {
  public:
    /// Room for `frames` frames (or gaps) of at most `most_values` values.
    LiveQueue(std::size_t frames, std::size_t most_values);

    /// Pushing thread. A frame with more values than was said is left out.
    void push_frame(const FrameView& frame);
    /// Pushing thread.
    void push_gap(const Gap& gap);
    /// Pushing thread: whether a push would leave everything that is not drained yet in place.
    [[nodiscard]] bool has_room() const;

    /// Draining thread: hands everything that was there at the call to the sink and returns how many frames
    /// that were.
    std::size_t drain(FrameSink& sink);

    /// Any thread: frames and gaps that gave way before they were drained.
    [[nodiscard]] std::uint64_t given_way() const { return given_way_.load(std::memory_order_relaxed); }

  private:
    /// A sequence lock around one record. The words are atomic because the pushing thread may overwrite what
    /// the draining thread is just reading; the draining thread sees that from the sequence and throws the
    /// copy away.
    struct Slot {
        std::atomic<std::uint64_t> sequence{0};
        std::vector<std::atomic<std::uint64_t>> words;
    };

    void push_record(std::size_t bytes);
    [[nodiscard]] bool copy_out(std::uint64_t number);

    std::vector<Slot> slots_;
    std::vector<std::byte> pushed_;             // of the pushing thread
    std::vector<std::byte> drained_;            // of the draining thread
    std::optional<FrameStamp> newest_drained_;  // of the draining thread
    std::atomic<std::uint64_t> written_{0};     ///< records ever pushed
    std::atomic<std::uint64_t> read_{0};        ///< number of the record that is drained next
    std::atomic<std::uint64_t> given_way_{0};
};

}  // namespace footing
