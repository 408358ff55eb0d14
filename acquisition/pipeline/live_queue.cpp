#include "acquisition/pipeline/live_queue.h"

#include <algorithm>
#include <cstring>

#include "acquisition/pipeline/queue_record.h"

namespace footing {

namespace {

using Word = std::uint64_t;

std::uint64_t being_written(std::uint64_t number) {
    return 2 * number + 1;
}
std::uint64_t complete(std::uint64_t number) {
    return 2 * number + 2;
}

/// Follows what a sink is given, so that a hole in the counters can be told as a gap.
class HoleTeller final : public FrameSink {
  public:
    HoleTeller(FrameSink& sink, std::optional<FrameStamp>& newest) : sink_(sink), newest_(newest) {}

    void take_frame(const FrameView& frame) override {
        const FrameStamp& stamp = frame.stamp;
        if (!gap_told_ && newest_ && stamp.counter > newest_->counter + 1) {
            sink_.take_gap({newest_->counter, stamp.counter - newest_->counter - 1, newest_->device_time_us,
                            stamp.device_time_us});
        }
        gap_told_ = false;
        newest_ = stamp;
        sink_.take_frame(frame);
        ++frames_;
    }

    void take_gap(const Gap& gap) override {
        // A gap whose frame before it gave way is told with the frame after it, as part of the larger hole.
        if (newest_ && gap.after_counter != newest_->counter) return;
        gap_told_ = true;
        sink_.take_gap(gap);
    }

    [[nodiscard]] std::size_t frames() const { return frames_; }

  private:
    FrameSink& sink_;
    std::optional<FrameStamp>& newest_;
    bool gap_told_ = false;
    std::size_t frames_ = 0;
};

}  // namespace

LiveQueue::LiveQueue(std::size_t frames, std::size_t most_values)
    : slots_(std::max<std::size_t>(frames, 2)),
      pushed_(most_record_bytes(most_values)),
      drained_(pushed_.size()) {
    for (Slot& slot : slots_) slot.words = std::vector<std::atomic<Word>>(pushed_.size() / sizeof(Word));
}

void LiveQueue::push_frame(const FrameView& frame) {
    const QueueRecordHead head = record_head(frame);
    if (record_bytes(head) > pushed_.size()) {
        given_way_.fetch_add(1, std::memory_order_relaxed);
        return;
    }
    write_record(head, frame.values, pushed_);
    push_record(record_bytes(head));
}

void LiveQueue::push_gap(const Gap& gap) {
    const QueueRecordHead head = record_head(gap);
    write_record(head, {}, pushed_);
    push_record(record_bytes(head));
}

bool LiveQueue::has_room() const {
    return written_.load(std::memory_order_relaxed) - read_.load(std::memory_order_acquire) < slots_.size();
}

void LiveQueue::push_record(std::size_t bytes) {
    const std::uint64_t number = written_.load(std::memory_order_relaxed);
    Slot& slot = slots_[number % slots_.size()];
    slot.sequence.store(being_written(number), std::memory_order_relaxed);
    for (std::size_t at = 0; at < bytes; at += sizeof(Word)) {
        Word word = 0;
        std::memcpy(&word, pushed_.data() + at, sizeof word);
        // Release: whoever reads this word also sees that the slot is being written.
        slot.words[at / sizeof word].store(word, std::memory_order_release);
    }
    slot.sequence.store(complete(number), std::memory_order_release);
    written_.store(number + 1, std::memory_order_release);
}

bool LiveQueue::copy_out(std::uint64_t number) {
    const Slot& slot = slots_[number % slots_.size()];
    if (slot.sequence.load(std::memory_order_acquire) != complete(number)) return false;
    const auto copy_words = [&](std::size_t from, std::size_t to) {
        for (std::size_t at = from; at < to; at += sizeof(Word)) {
            const Word word = slot.words[at / sizeof(Word)].load(std::memory_order_acquire);
            std::memcpy(drained_.data() + at, &word, sizeof word);
        }
    };
    copy_words(0, sizeof(QueueRecordHead));
    if (slot.sequence.load(std::memory_order_relaxed) != complete(number)) return false;
    QueueRecordHead head;
    std::memcpy(&head, drained_.data(), sizeof head);
    copy_words(sizeof head, record_bytes(head));
    return slot.sequence.load(std::memory_order_relaxed) == complete(number);
}

std::size_t LiveQueue::drain(FrameSink& sink) {
    HoleTeller teller(sink, newest_drained_);
    const std::uint64_t end = written_.load(std::memory_order_acquire);
    std::uint64_t next = read_.load(std::memory_order_relaxed);
    if (end - next > slots_.size()) {
        given_way_.fetch_add(end - slots_.size() - next, std::memory_order_relaxed);
        next = end - slots_.size();
    }
    for (; next != end; ++next) {
        if (copy_out(next)) {
            QueueRecordHead head;
            std::memcpy(&head, drained_.data(), sizeof head);
            hand_out(head, std::span<const std::byte>(drained_).subspan(sizeof head), teller);
        } else {
            given_way_.fetch_add(1, std::memory_order_relaxed);
        }
        read_.store(next + 1, std::memory_order_release);
    }
    return teller.frames();
}

}  // namespace footing
