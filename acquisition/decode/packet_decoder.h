#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "acquisition/decode/wire_encoder.h"
#include "acquisition/decode/wire_format.h"

namespace footing {

/// Decoding is pure: bytes in, a verdict out. No port, no thread, no clock, no allocation.
enum class Verdict {
    invalid,    ///< no packet begins here: step one byte
    need_more,  ///< so far it could be one
    frame,      ///< a whole, correct packet or line
};

/// One correct packet, not owned: the payload points into the bytes that were decoded.
struct Packet {
    PacketHead head;
    wire::PacketKind kind = wire::PacketKind::cells;
    std::uint16_t count = 0;             ///< values in the payload; bytes for a description
    std::uint16_t rows = 0;              ///< grid bands only, of the whole grid
    std::uint16_t columns = 0;           ///< grid bands only
    std::uint16_t first_row = 0;         ///< grid bands only, 0-based
    std::uint16_t row_count = 0;         ///< grid bands only
    std::span<const std::byte> payload;  ///< the values alone, not aligned
};

struct DecodedPacket {
    Verdict verdict = Verdict::invalid;
    std::size_t length = 0;  ///< bytes of the packet, for a frame
    Packet packet;           ///< for a frame
};

/// Looks for a packet at the first byte. Sizes are checked against wire::most_packet_bytes and the bounds of
/// plate_layout.h before anything is read, and the checksum before anything is believed.
[[nodiscard]] DecodedPacket decode_packet(std::span<const std::byte> bytes);

/// A datagram is one packet and nothing else.
[[nodiscard]] std::optional<Packet> decode_datagram(std::span<const std::byte> datagram);

/// The payload as numbers; `into` has packet.count elements at least.
void copy_counts(const Packet& packet, std::span<std::int32_t> into);
void copy_components(const Packet& packet, std::span<double> into);
/// Of a description: its JSON, as long as the bytes live.
[[nodiscard]] std::string_view description_text(const Packet& packet);

}  // namespace footing
