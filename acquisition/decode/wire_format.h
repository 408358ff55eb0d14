#pragma once

#include <cstddef>
#include <cstdint>

/// Every name, offset, type and limit of wire format 1. Writer: wire_encoder. Reader: packet_decoder.
/// The page for people who write senders: docs/device_protocol.md.
///
/// Little-endian. UDP: one datagram, one packet. Serial: the packet COBS-encoded, 0x00 after it.
namespace footing::wire {

inline constexpr std::uint16_t magic = 0x4746;  ///< as bytes 'F' 'G'
inline constexpr std::uint8_t version = 1;

enum class PacketKind : std::uint8_t {
    description = 1,  ///< UTF-8 JSON; `count` is its length in bytes
    cells = 2,        ///< `count` x i32, raw counts
    grid_band = 3,    ///< four u16 (rows, columns, first row, row count), then `count` x u16
    components = 4,   ///< `count` x f32: Fx Fy Fz Mx My Mz for each plate, N and N m
};

// The head.
inline constexpr std::size_t magic_offset = 0;         // u16
inline constexpr std::size_t version_offset = 2;       // u8
inline constexpr std::size_t kind_offset = 3;          // u8
inline constexpr std::size_t serial_offset = 4;        // u32, the device's serial number
inline constexpr std::size_t counter_offset = 8;       // u32, one per sampling instant, wraps
inline constexpr std::size_t device_time_offset = 12;  // u64, microseconds
inline constexpr std::size_t inputs_offset = 20;       // u16, bit 0: trigger
inline constexpr std::size_t count_offset = 22;        // u16, values that follow
inline constexpr std::size_t payload_offset = 24;

// The head of a grid band, at the start of its payload.
inline constexpr std::size_t band_rows_offset = payload_offset;           // u16, rows of the whole grid
inline constexpr std::size_t band_columns_offset = payload_offset + 2;    // u16
inline constexpr std::size_t band_first_row_offset = payload_offset + 4;  // u16, 0-based
inline constexpr std::size_t band_row_count_offset = payload_offset + 6;  // u16
inline constexpr std::size_t band_values_offset = payload_offset + 8;

inline constexpr std::size_t checksum_bytes = 4;  // u32, CRC-32C of all before it

/// One Ethernet frame without fragments, less room for tunnels.
inline constexpr std::size_t most_packet_bytes = 1452;
inline constexpr std::size_t least_packet_bytes = payload_offset + checksum_bytes;
inline constexpr std::size_t most_description_bytes = most_packet_bytes - least_packet_bytes;
inline constexpr std::size_t most_band_values =
    (most_packet_bytes - band_values_offset - checksum_bytes) / sizeof(std::uint16_t);

/// Half the range, so that differences of times have a sign; 292,000 years.
inline constexpr std::uint64_t latest_device_time_us = (std::uint64_t{1} << 63U) - 1;

inline constexpr std::byte stream_delimiter{0};  ///< ends each COBS-encoded packet on a serial line

}  // namespace footing::wire
