#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "acquisition/decode/wire_format.h"

namespace footing {

/// What stands in the head of every packet (wire format 1) beside its kind and size.
struct PacketHead {
    std::uint32_t serial = 0;          ///< the device's serial number
    std::uint32_t counter = 0;         ///< one per sampling instant, wraps
    std::uint64_t device_time_us = 0;  ///< the device's clock
    std::uint16_t inputs = 0;          ///< bit 0: trigger
    friend bool operator==(const PacketHead&, const PacketHead&) = default;
};

/// Each of these gives complete packets with their checksum: one is a datagram; for a serial line pass it to
/// stream_form. None gives a packet longer than wire::most_packet_bytes: what does not fit gives an empty
/// vector.

/// Raw counts, one a cell; at most most_cells.
[[nodiscard]] std::vector<std::byte> encode_cells(const PacketHead& head,
                                                  std::span<const std::int32_t> counts);

/// Fx Fy Fz Mx My Mz for each plate, N and N m; at most six for each of most_plates.
[[nodiscard]] std::vector<std::byte> encode_components(const PacketHead& head,
                                                       std::span<const float> components);

/// One grid frame, row by row, cut into bands of whole rows: as many packets as it takes.
/// Empty unless values.size() == rows * columns, within most_grid_values, and a row fits into a packet.
[[nodiscard]] std::vector<std::vector<std::byte>> encode_grid_bands(const PacketHead& head, std::size_t rows,
                                                                    std::size_t columns,
                                                                    std::span<const std::uint16_t> values);

/// What the device says of itself (see description.h); at most wire::most_description_bytes.
[[nodiscard]] std::vector<std::byte> encode_description(const PacketHead& head, std::string_view json);

/// A packet as it goes over a serial line: COBS-encoded, and a zero after it.
[[nodiscard]] std::vector<std::byte> stream_form(std::span<const std::byte> packet);

}  // namespace footing
