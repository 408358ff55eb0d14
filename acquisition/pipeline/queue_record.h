#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "acquisition/frame/frame_source.h"

namespace footing {

/// A frame or a gap as it lies in a queue: this head, then the values, padded to whole 8 bytes.
struct QueueRecordHead {
    enum class Content : std::uint32_t { gap, counts, grid, physical };
    Content content = Content::gap;
    std::uint32_t value_count = 0;
    FrameStamp stamp;  ///< of a frame
    Gap gap;           ///< of a gap
};

[[nodiscard]] QueueRecordHead record_head(const FrameView& frame);
[[nodiscard]] QueueRecordHead record_head(const Gap& gap);

/// Bytes of the whole record, a multiple of 8.
[[nodiscard]] std::size_t record_bytes(const QueueRecordHead& head);

/// Bytes of the longest record with frames of `most_values` values of any kind.
[[nodiscard]] std::size_t most_record_bytes(std::size_t most_values);

/// Writes the record; `into` has at least record_bytes(head).
void write_record(const QueueRecordHead& head, const FrameValues& values, std::span<std::byte> into);

/// Gives the record to the sink. `values` are the bytes after the head, aligned to 8.
void hand_out(const QueueRecordHead& head, std::span<const std::byte> values, FrameSink& sink);

}  // namespace footing
