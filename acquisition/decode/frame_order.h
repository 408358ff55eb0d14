#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// When a frame was, as it stands on the wire.
struct RawStamp {
    std::uint32_t counter = 0;
    std::uint64_t device_time_us = 0;
    std::int64_t host_time_ns = 0;
    std::uint16_t inputs = 0;
};

/// Where a device's own clock starts again.
enum class TimeWidth { bits_64, bits_32 };

struct FrameOrderOptions {
    TimeWidth time_width = TimeWidth::bits_64;
    std::size_t window_frames = 8;  ///< how far a late frame may be behind and still be put in order; 0: none
    std::int64_t patience_ns = 10'000'000;  ///< longest that frames behind a hole are held back
};

/// Puts frames in the order of the device's counter and tells what is missing (R1): the one place where
/// stamps are unwrapped and gaps, duplicates, late frames and restarts are found. Pure: host time comes with
/// the frames.
///
/// A hole is waited out for a few frames; then it is told as a gap and what was held back follows. A frame
/// that comes after its hole was told is dropped and counted as reordered (it also counts as lost). When the
/// counter or the device's clock jumps back, the device has restarted: the gap has frames_missing 0, counters
/// go on from where they were, and device time goes on by the host's clock. Allocates on construction only.
class FrameOrder {
  public:
    /// For frames of at most `most_values` values.
    FrameOrder(const FrameOrderOptions& options, std::size_t most_values);

    void take(const RawStamp& raw, const FrameValues& values, FrameSink& sink);
    /// Call when time passes without frames, so that what is held back does not wait for ever.
    void pass_time(std::int64_t host_time_ns, FrameSink& sink);
    /// Tells what is held back now: the line has ended.
    void release(FrameSink& sink);

    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    [[nodiscard]] std::uint64_t lost() const { return lost_; }
    [[nodiscard]] std::uint64_t duplicated() const { return duplicated_; }
    [[nodiscard]] std::uint64_t reordered() const { return reordered_; }

  private:
    enum class SlotState { free, held };
    struct Slot {
        SlotState state = SlotState::free;
        FrameStamp stamp;
        RawStamp raw;
        std::size_t kind = 0;  ///< which alternative of FrameValues
        std::size_t count = 0;
        std::vector<std::byte> values;
    };

    [[nodiscard]] FrameStamp unwrapped(const RawStamp& raw) const;
    [[nodiscard]] std::int64_t time_step_us(const RawStamp& raw) const;
    [[nodiscard]] bool is_restart(const RawStamp& raw, std::int32_t step);
    void take_late(std::int32_t step);
    void take_restart(const RawStamp& raw, const FrameValues& values, FrameSink& sink);
    void take_ahead(const FrameStamp& stamp, const RawStamp& raw, const FrameValues& values, FrameSink& sink);
    void emit(FrameStamp stamp, const RawStamp& raw, const FrameValues& values, FrameSink& sink);
    void emit_held(Slot& slot, FrameSink& sink);
    void emit_followers(FrameSink& sink);
    void hold(Slot& slot, const FrameStamp& stamp, const RawStamp& raw, const FrameValues& values);
    [[nodiscard]] Slot* oldest_held();

    FrameOrderOptions options_;
    std::vector<Slot> slots_;
    std::size_t held_ = 0;
    std::optional<FrameStamp> newest_;  ///< the last frame handed out
    RawStamp newest_raw_;
    std::uint64_t recently_emitted_ = 0;  ///< bit k: the frame k before the newest was handed out
    std::uint32_t last_behind_ = 0;       ///< counter of the last frame that was behind
    unsigned behind_in_a_row_ = 0;
    std::int64_t silence_before_behind_ns_ = 0;  ///< before the first of them
    std::uint64_t frames_ = 0;
    std::uint64_t lost_ = 0;
    std::uint64_t duplicated_ = 0;
    std::uint64_t reordered_ = 0;
};

}  // namespace footing
