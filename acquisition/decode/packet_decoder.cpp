#include "acquisition/decode/packet_decoder.h"

#include <cstring>

#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

namespace {

constexpr DecodedPacket invalid{Verdict::invalid, 0, {}};
constexpr DecodedPacket need_more{Verdict::need_more, 0, {}};

/// Whether the bytes so far could begin a packet, as far as magic, version and kind go.
bool may_begin_packet(std::span<const std::byte> bytes) {
    const auto byte_is = [&](std::size_t at, unsigned value) {
        return bytes.size() <= at || std::to_integer<unsigned>(bytes[at]) == value;
    };
    if (!byte_is(0, wire::magic & 0xFFU) || !byte_is(1, wire::magic >> 8U)) return false;
    if (!byte_is(wire::version_offset, wire::version)) return false;
    if (bytes.size() <= wire::kind_offset) return true;
    const auto kind = std::to_integer<unsigned>(bytes[wire::kind_offset]);
    return kind >= static_cast<unsigned>(wire::PacketKind::description) &&
           kind <= static_cast<unsigned>(wire::PacketKind::components);
}

/// Bytes between the head and the checksum; nothing when no packet may have so many values.
std::optional<std::size_t> payload_bytes(wire::PacketKind kind, std::size_t count) {
    constexpr std::size_t band_head = wire::band_values_offset - wire::payload_offset;
    std::size_t bytes = 0;
    switch (kind) {
        case wire::PacketKind::description:
            bytes = count;
            break;
        case wire::PacketKind::cells:
            if (count > most_cells) return std::nullopt;
            bytes = count * sizeof(std::int32_t);
            break;
        case wire::PacketKind::grid_band:
            bytes = band_head + count * sizeof(std::uint16_t);
            break;
        case wire::PacketKind::components:
            if (count > most_plates * components_per_plate || count % components_per_plate != 0)
                return std::nullopt;
            bytes = count * sizeof(float);
            break;
    }
    if (count == 0 || bytes > wire::most_packet_bytes - wire::least_packet_bytes) return std::nullopt;
    return bytes;
}

bool band_is_possible(const Packet& packet) {
    const std::size_t elements = std::size_t{packet.rows} * packet.columns;
    return elements > 0 && elements <= most_grid_values && packet.row_count > 0 &&
           std::size_t{packet.first_row} + packet.row_count <= packet.rows &&
           std::size_t{packet.row_count} * packet.columns == packet.count;
}

}  // namespace

DecodedPacket decode_packet(std::span<const std::byte> bytes) {
    if (!may_begin_packet(bytes)) return invalid;
    if (bytes.size() < wire::payload_offset) return need_more;
    Packet packet;
    packet.kind = static_cast<wire::PacketKind>(read_little_endian<std::uint8_t>(bytes, wire::kind_offset));
    packet.count = read_little_endian<std::uint16_t>(bytes, wire::count_offset);
    const auto payload = payload_bytes(packet.kind, packet.count);
    if (!payload) return invalid;
    const std::size_t length = wire::least_packet_bytes + *payload;
    if (bytes.size() < length) return need_more;
    const std::size_t checked = length - wire::checksum_bytes;
    if (crc32c(bytes.first(checked)) != read_little_endian<std::uint32_t>(bytes, checked)) return invalid;
    packet.head = {read_little_endian<std::uint32_t>(bytes, wire::serial_offset),
                   read_little_endian<std::uint32_t>(bytes, wire::counter_offset),
                   read_little_endian<std::uint64_t>(bytes, wire::device_time_offset),
                   read_little_endian<std::uint16_t>(bytes, wire::inputs_offset)};
    if (packet.head.device_time_us > wire::latest_device_time_us) return invalid;
    packet.payload = bytes.subspan(wire::payload_offset, *payload);
    if (packet.kind == wire::PacketKind::grid_band) {
        packet.rows = read_little_endian<std::uint16_t>(bytes, wire::band_rows_offset);
        packet.columns = read_little_endian<std::uint16_t>(bytes, wire::band_columns_offset);
        packet.first_row = read_little_endian<std::uint16_t>(bytes, wire::band_first_row_offset);
        packet.row_count = read_little_endian<std::uint16_t>(bytes, wire::band_row_count_offset);
        packet.payload = packet.payload.subspan(wire::band_values_offset - wire::payload_offset);
        if (!band_is_possible(packet)) return invalid;
    }
    return {Verdict::frame, length, packet};
}

std::optional<Packet> decode_datagram(std::span<const std::byte> datagram) {
    const DecodedPacket decoded = decode_packet(datagram);
    if (decoded.verdict != Verdict::frame || decoded.length != datagram.size()) return std::nullopt;
    return decoded.packet;
}

void copy_counts(const Packet& packet, std::span<std::int32_t> into) {
    std::memcpy(into.data(), packet.payload.data(), packet.count * sizeof(std::int32_t));
}

void copy_components(const Packet& packet, std::span<double> into) {
    for (std::size_t i = 0; i < packet.count; ++i) {
        into[i] = static_cast<double>(read_little_endian<float>(packet.payload, i * sizeof(float)));
    }
}

std::string_view description_text(const Packet& packet) {
    return {reinterpret_cast<const char*>(packet.payload.data()), packet.payload.size()};
}

}  // namespace footing
