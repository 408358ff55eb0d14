#pragma once

#include <array>
#include <cstddef>
#include <span>

#include "acquisition/decode/cobs.h"
#include "acquisition/decode/packet_decoder.h"

namespace footing {

/// Finds packets in the bytes of a serial line: COBS between zeros. Holds at most one packet; never
/// allocates.
class PacketStream {
  public:
    struct Step {
        Verdict verdict = Verdict::need_more;
        std::size_t taken = 0;  ///< of the bytes given; call again with the rest
        Packet packet;          ///< for a frame, valid until the next step
    };

    /// Takes bytes up to the end of the next packet. need_more: all were taken. invalid: what stood between
    /// two zeros was no packet; reading goes on behind it. What comes before the first zero is passed over
    /// without a verdict of invalid, because the line may have been opened in the middle of a packet.
    [[nodiscard]] Step step(std::span<const std::byte> bytes);

    /// As if the line had just been opened.
    void reset();

  private:
    [[nodiscard]] Step close(std::size_t taken);

    std::array<std::byte, cobs_most_bytes(wire::most_packet_bytes)> held_{};
    std::size_t length_ = 0;
    enum class Place { before_first_zero, in_packet, in_too_long } place_ = Place::before_first_zero;
};

}  // namespace footing
