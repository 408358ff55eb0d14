#include "acquisition/decode/grid_assembler.h"

#include <algorithm>
#include <cstring>

namespace footing {

namespace {

/// A band this many frames behind is late; one further behind comes from a device that has restarted.
constexpr std::int32_t latest_frames_behind = 16;

std::int32_t frames_ahead(std::uint32_t counter, std::uint32_t of) {
    return static_cast<std::int32_t>(counter - of);
}

}  // namespace

GridAssembler::GridAssembler(std::size_t rows, std::size_t columns) : rows_(rows), columns_(columns) {
    for (Slot& slot : slots_) {
        slot.row_came.resize(rows);
        slot.values.resize(rows * columns);
    }
}

GridAssembler::Step GridAssembler::take(const Packet& band) {
    if (band.kind != wire::PacketKind::grid_band || band.rows != rows_ || band.columns != columns_) {
        return {Verdict::invalid, {}, {}};
    }
    if (const Settled* before = settled(band.head.counter)) {
        // Counted once, by the band that every frame has exactly once.
        if (before->how == Settled::How::complete && band.first_row == 0) ++duplicated_;
        return {};
    }
    if (band.first_row == 0) begun_ = true;
    if (!begun_) return {};
    Slot* slot = slot_for(band.head);
    if (slot == nullptr) return {};
    slot->head.inputs |= band.head.inputs;
    for (std::size_t i = 0; i < band.row_count; ++i) {
        const std::size_t row = band.first_row + i;
        if (slot->row_came[row] != 0) continue;
        slot->row_came[row] = 1;
        --slot->rows_missing;
        std::memcpy(slot->values.data() + row * columns_,
                    band.payload.data() + i * columns_ * sizeof(std::uint16_t),
                    columns_ * sizeof(std::uint16_t));
    }
    if (slot->rows_missing > 0) return {};
    settle(*slot, Settled::How::complete);
    return {Verdict::frame, slot->head, slot->values};
}

GridAssembler::Slot* GridAssembler::slot_for(const PacketHead& head) {
    for (Slot& slot : slots_) {
        if (slot.state == SlotState::filling && slot.head.counter == head.counter) return &slot;
    }
    for (Slot& slot : slots_) {
        if (slot.state == SlotState::free) continue;
        const std::int32_t ahead = frames_ahead(head.counter, slot.head.counter);
        if (ahead >= 2 || ahead < -latest_frames_behind) settle(slot, Settled::How::given_up);
    }
    for (Slot& slot : slots_) {
        if (slot.state == SlotState::filling) continue;
        begin(slot, head);
        return &slot;
    }
    // Both are being filled with newer frames: this one is too late.
    return nullptr;
}

void GridAssembler::begin(Slot& slot, const PacketHead& head) {
    slot.state = SlotState::filling;
    slot.head = head;
    slot.rows_missing = rows_;
    std::ranges::fill(slot.row_came, std::uint8_t{0});
}

void GridAssembler::settle(Slot& slot, Settled::How how) {
    if (how == Settled::How::given_up) ++incomplete_;
    slot.state = SlotState::free;
    settled_[next_settled_] = {slot.head.counter, how};
    next_settled_ = (next_settled_ + 1) % settled_.size();
}

const GridAssembler::Settled* GridAssembler::settled(std::uint32_t counter) const {
    const auto at = std::ranges::find_if(settled_, [&](const Settled& entry) {
        return entry.how != Settled::How::none && entry.counter == counter;
    });
    return at == settled_.end() ? nullptr : &*at;
}

void GridAssembler::give_up() {
    for (Slot& slot : slots_) {
        if (slot.state == SlotState::filling) settle(slot, Settled::How::given_up);
    }
    settled_.fill({});
}

}  // namespace footing
