#include "acquisition/decode/frame_order.h"

#include <algorithm>
#include <cstring>

namespace footing {

namespace {

/// A network never delivers a frame this many frames or microseconds late: the device counts anew.
constexpr std::int32_t most_frames_behind = 64;
constexpr std::int64_t most_time_behind_us = 2'000'000;
/// A device that restarts after its first few frames looks as if it sent them again, one after the other; but
/// it was silent before.
constexpr unsigned behind_in_a_row_of_a_restart = 8;
constexpr std::int64_t least_boot_ns = 200'000'000;

FrameValues values_of(std::size_t kind, std::size_t count, const std::byte* bytes) {
    switch (kind) {
        case 0:
            return std::span(reinterpret_cast<const std::int32_t*>(bytes), count);
        case 1:
            return std::span(reinterpret_cast<const std::uint16_t*>(bytes), count);
        default:
            return std::span(reinterpret_cast<const double*>(bytes), count);
    }
}

}  // namespace

FrameOrder::FrameOrder(const FrameOrderOptions& options, std::size_t most_values)
    : options_(options), slots_(options.window_frames) {
    for (Slot& slot : slots_) slot.values.resize(most_values * sizeof(double));
}

void FrameOrder::take(const RawStamp& raw, const FrameValues& values, FrameSink& sink) {
    if (!newest_) {
        emit({raw.counter, raw.device_time_us, raw.host_time_ns, raw.inputs}, raw, values, sink);
        return;
    }
    const auto step = static_cast<std::int32_t>(raw.counter - newest_raw_.counter);
    if (is_restart(raw, step)) {
        take_restart(raw, values, sink);
    } else if (step <= 0) {
        take_late(step);
    } else {
        behind_in_a_row_ = 0;
        take_ahead(unwrapped(raw), raw, values, sink);
    }
}

void FrameOrder::pass_time(std::int64_t host_time_ns, FrameSink& sink) {
    const Slot* oldest = oldest_held();
    if (oldest != nullptr && host_time_ns - oldest->stamp.host_time_ns > options_.patience_ns) release(sink);
}

void FrameOrder::release(FrameSink& sink) {
    while (Slot* slot = oldest_held()) emit_held(*slot, sink);
}

std::int64_t FrameOrder::time_step_us(const RawStamp& raw) const {
    const std::uint64_t step = raw.device_time_us - newest_raw_.device_time_us;
    if (options_.time_width == TimeWidth::bits_32) return static_cast<std::int32_t>(step);
    return static_cast<std::int64_t>(step);
}

FrameStamp FrameOrder::unwrapped(const RawStamp& raw) const {
    const std::uint32_t step = raw.counter - newest_raw_.counter;
    return {newest_->counter + step, newest_->device_time_us + static_cast<std::uint64_t>(time_step_us(raw)),
            raw.host_time_ns, raw.inputs};
}

bool FrameOrder::is_restart(const RawStamp& raw, std::int32_t step) {
    const std::int64_t time_step = time_step_us(raw);
    if (step > 0) return time_step < 0;
    if (step <= -most_frames_behind || time_step < -most_time_behind_us) return true;
    if (step < 0 && time_step > 0) return true;
    if (behind_in_a_row_ == 0 || raw.counter != last_behind_ + 1) {
        behind_in_a_row_ = 0;
        silence_before_behind_ns_ = raw.host_time_ns - newest_raw_.host_time_ns;
    }
    ++behind_in_a_row_;
    last_behind_ = raw.counter;
    return behind_in_a_row_ >= behind_in_a_row_of_a_restart && silence_before_behind_ns_ >= least_boot_ns;
}

void FrameOrder::take_late(std::int32_t step) {
    const bool came_before = ((recently_emitted_ >> static_cast<unsigned>(-step)) & 1U) != 0;
    ++(came_before ? duplicated_ : reordered_);
}

void FrameOrder::take_restart(const RawStamp& raw, const FrameValues& values, FrameSink& sink) {
    release(sink);
    const std::int64_t elapsed_us =
        std::max<std::int64_t>(1, (raw.host_time_ns - newest_->host_time_ns) / 1000);
    const FrameStamp stamp{newest_->counter + 1,
                           newest_->device_time_us + static_cast<std::uint64_t>(elapsed_us), raw.host_time_ns,
                           raw.inputs};
    sink.take_gap({newest_->counter, 0, newest_->device_time_us, stamp.device_time_us});
    behind_in_a_row_ = 0;
    recently_emitted_ = 0;
    emit(stamp, raw, values, sink);
}

void FrameOrder::take_ahead(const FrameStamp& stamp, const RawStamp& raw, const FrameValues& values,
                            FrameSink& sink) {
    // What would have to wait too long for its hole is told now, oldest first.
    while (held_ > 0 && stamp.counter > newest_->counter + options_.window_frames) {
        emit_held(*oldest_held(), sink);
        emit_followers(sink);
    }
    const std::uint64_t missing = stamp.counter - newest_->counter - 1;
    if (missing == 0 || missing >= options_.window_frames) {
        emit(stamp, raw, values, sink);
        emit_followers(sink);
        return;
    }
    Slot& slot = slots_[stamp.counter % slots_.size()];
    if (slot.state == SlotState::held) {
        ++duplicated_;
    } else {
        hold(slot, stamp, raw, values);
    }
}

void FrameOrder::emit(FrameStamp stamp, const RawStamp& raw, const FrameValues& values, FrameSink& sink) {
    const std::uint64_t step = newest_ ? stamp.counter - newest_->counter : 1;
    // A device whose clock steps back while frames are held back must not make time run backwards here.
    if (newest_) stamp.device_time_us = std::max(stamp.device_time_us, newest_->device_time_us);
    if (step > 1) {
        lost_ += step - 1;
        sink.take_gap({newest_->counter, step - 1, newest_->device_time_us, stamp.device_time_us});
    }
    recently_emitted_ = step < 64 ? (recently_emitted_ << step) | 1U : 1U;
    newest_ = stamp;
    newest_raw_ = raw;
    ++frames_;
    sink.take_frame({stamp, values});
}

void FrameOrder::emit_held(Slot& slot, FrameSink& sink) {
    slot.state = SlotState::free;
    --held_;
    emit(slot.stamp, slot.raw, values_of(slot.kind, slot.count, slot.values.data()), sink);
}

void FrameOrder::emit_followers(FrameSink& sink) {
    while (held_ > 0) {
        Slot& slot = slots_[(newest_->counter + 1) % slots_.size()];
        if (slot.state == SlotState::free || slot.stamp.counter != newest_->counter + 1) return;
        emit_held(slot, sink);
    }
}

void FrameOrder::hold(Slot& slot, const FrameStamp& stamp, const RawStamp& raw, const FrameValues& values) {
    slot.state = SlotState::held;
    slot.stamp = stamp;
    slot.raw = raw;
    slot.kind = values.index();
    std::visit(
        [&](const auto& span) {
            slot.count = std::min(span.size(), slot.values.size() / sizeof(double));
            std::memcpy(slot.values.data(), span.data(), slot.count * sizeof(span[0]));
        },
        values);
    ++held_;
}

FrameOrder::Slot* FrameOrder::oldest_held() {
    Slot* oldest = nullptr;
    for (Slot& slot : slots_) {
        if (slot.state == SlotState::held &&
            (oldest == nullptr || slot.stamp.counter < oldest->stamp.counter))
            oldest = &slot;
    }
    return oldest;
}

}  // namespace footing
