#include "acquisition/pipeline/frame_queue.h"

#include <algorithm>
#include <boost/lockfree/spsc_queue.hpp>
#include <cstring>
#include <vector>

#include "acquisition/pipeline/queue_record.h"

namespace footing {

struct FrameQueue::Ring {
    Ring(std::size_t capacity_bytes, std::size_t most_bytes)
        : bytes(std::max(capacity_bytes, 2 * (most_bytes + sizeof(QueueRecordHead)))),
          most_record(most_bytes),
          pushed(most_bytes),
          drained(most_bytes) {}

    bool push(const QueueRecordHead& head, const FrameValues& values) {
        const std::size_t length = record_bytes(head);
        if (length > most_record || bytes.write_available() < length) return false;
        write_record(head, values, pushed);
        bytes.push(pushed.data(), length);  // one push, so that a record is seen whole or not at all
        return true;
    }

    boost::lockfree::spsc_queue<std::byte> bytes;
    std::size_t most_record;
    std::vector<std::byte> pushed;   // of the pushing thread
    std::vector<std::byte> drained;  // of the draining thread
};

FrameQueue::FrameQueue(std::size_t capacity_bytes, std::size_t most_values)
    : ring_(std::make_unique<Ring>(capacity_bytes, most_record_bytes(most_values))) {}

FrameQueue::~FrameQueue() = default;

bool FrameQueue::push_frame(const FrameView& frame) {
    return ring_->push(record_head(frame), frame.values);
}

bool FrameQueue::push_gap(const Gap& gap) {
    return ring_->push(record_head(gap), {});
}

bool FrameQueue::has_room() const {
    return ring_->bytes.write_available() >= ring_->most_record + sizeof(QueueRecordHead);
}

std::size_t FrameQueue::drain(FrameSink& sink) {
    std::size_t frames = 0;
    std::size_t waiting = ring_->bytes.read_available();
    while (waiting >= sizeof(QueueRecordHead)) {
        QueueRecordHead head;
        ring_->bytes.pop(ring_->drained.data(), sizeof head);
        std::memcpy(&head, ring_->drained.data(), sizeof head);
        const std::size_t value_bytes = record_bytes(head) - sizeof head;
        if (value_bytes > 0) ring_->bytes.pop(ring_->drained.data(), value_bytes);
        hand_out(head, std::span(ring_->drained).first(value_bytes), sink);
        if (head.content != QueueRecordHead::Content::gap) ++frames;
        waiting -= sizeof head + value_bytes;
    }
    return frames;
}

bool FrameQueue::empty() const {
    return ring_->bytes.read_available() == 0;
}

}  // namespace footing
