#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/decode/packet_decoder.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

/// Puts the bands of a grid frame together. A frame completes when all its rows came, in whatever order;
/// bands of two successive frames may mix. A frame of which a band has not come when the second frame after
/// it begins is given up and counted. Allocates on construction only.
class GridAssembler {
  public:
    GridAssembler(std::size_t rows, std::size_t columns);

    struct Step {
        Verdict verdict = Verdict::need_more;   ///< frame: complete; invalid: not a band of this grid
        PacketHead head;                        ///< of the frame: inputs are those of all its bands together
        std::span<const std::uint16_t> values;  ///< row by row, valid until the next call
    };
    [[nodiscard]] Step take(const Packet& band);

    /// Gives up what is not complete: the line has ended.
    void give_up();

    [[nodiscard]] std::uint64_t incomplete() const { return incomplete_; }
    [[nodiscard]] std::uint64_t duplicated() const { return duplicated_; }  ///< whole frames that came again

  private:
    enum class SlotState { free, filling };
    struct Slot {
        SlotState state = SlotState::free;
        PacketHead head;
        std::size_t rows_missing = 0;
        std::vector<std::uint8_t> row_came;
        std::vector<std::uint16_t> values;
    };
    struct Settled {
        std::uint32_t counter = 0;
        enum class How { none, complete, given_up } how = How::none;
    };

    [[nodiscard]] Slot* slot_for(const PacketHead& head);
    void begin(Slot& slot, const PacketHead& head);
    void settle(Slot& slot, Settled::How how);
    [[nodiscard]] const Settled* settled(std::uint32_t counter) const;

    std::size_t rows_;
    std::size_t columns_;
    std::array<Slot, 2> slots_;
    std::array<Settled, 16> settled_{};
    std::size_t next_settled_ = 0;
    bool begun_ = false;
    std::uint64_t incomplete_ = 0;
    std::uint64_t duplicated_ = 0;
};

}  // namespace footing
