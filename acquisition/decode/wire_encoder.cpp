#include "acquisition/decode/wire_encoder.h"

#include <algorithm>
#include <cstring>

#include "acquisition/decode/cobs.h"
#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

namespace {

struct BandHead {
    std::uint16_t rows, columns, first_row, row_count;
};

std::vector<std::byte> packet_with_head(const PacketHead& head, wire::PacketKind kind, std::size_t count,
                                        std::size_t payload_bytes) {
    std::vector<std::byte> packet(wire::payload_offset + payload_bytes + wire::checksum_bytes);
    write_little_endian(packet, wire::magic_offset, wire::magic);
    write_little_endian(packet, wire::version_offset, wire::version);
    write_little_endian(packet, wire::kind_offset, static_cast<std::uint8_t>(kind));
    write_little_endian(packet, wire::serial_offset, head.serial);
    write_little_endian(packet, wire::counter_offset, head.counter);
    write_little_endian(packet, wire::device_time_offset, head.device_time_us);
    write_little_endian(packet, wire::inputs_offset, head.inputs);
    write_little_endian(packet, wire::count_offset, static_cast<std::uint16_t>(count));
    return packet;
}

void close_packet(std::vector<std::byte>& packet) {
    const std::size_t checked = packet.size() - wire::checksum_bytes;
    write_little_endian(packet, checked, crc32c(std::span(packet).first(checked)));
}

template <typename Value>
std::vector<std::byte> encode_values(const PacketHead& head, wire::PacketKind kind,
                                     std::span<const Value> values, std::size_t most_values) {
    if (values.size() > most_values ||
        wire::least_packet_bytes + values.size_bytes() > wire::most_packet_bytes) {
        return {};
    }
    auto packet = packet_with_head(head, kind, values.size(), values.size_bytes());
    std::ranges::copy(std::as_bytes(values), packet.begin() + wire::payload_offset);
    close_packet(packet);
    return packet;
}

std::vector<std::byte> encode_band(const PacketHead& head, const BandHead& band,
                                   std::span<const std::uint16_t> values) {
    constexpr std::size_t band_head_bytes = wire::band_values_offset - wire::payload_offset;
    auto packet = packet_with_head(head, wire::PacketKind::grid_band, values.size(),
                                   band_head_bytes + values.size_bytes());
    write_little_endian(packet, wire::band_rows_offset, band.rows);
    write_little_endian(packet, wire::band_columns_offset, band.columns);
    write_little_endian(packet, wire::band_first_row_offset, band.first_row);
    write_little_endian(packet, wire::band_row_count_offset, band.row_count);
    std::ranges::copy(std::as_bytes(values), packet.begin() + wire::band_values_offset);
    close_packet(packet);
    return packet;
}

}  // namespace

std::vector<std::byte> encode_cells(const PacketHead& head, std::span<const std::int32_t> counts) {
    return encode_values(head, wire::PacketKind::cells, counts, most_cells);
}

std::vector<std::byte> encode_components(const PacketHead& head, std::span<const float> components) {
    return encode_values(head, wire::PacketKind::components, components, most_plates * components_per_plate);
}

std::vector<std::vector<std::byte>> encode_grid_bands(const PacketHead& head, std::size_t rows,
                                                      std::size_t columns,
                                                      std::span<const std::uint16_t> values) {
    if (rows == 0 || columns == 0 || columns > wire::most_band_values || rows > most_grid_values / columns ||
        values.size() != rows * columns) {
        return {};
    }
    const std::size_t rows_a_band = wire::most_band_values / columns;
    std::vector<std::vector<std::byte>> packets;
    packets.reserve((rows + rows_a_band - 1) / rows_a_band);
    for (std::size_t first = 0; first < rows; first += rows_a_band) {
        const std::size_t row_count = std::min(rows_a_band, rows - first);
        const BandHead band{static_cast<std::uint16_t>(rows), static_cast<std::uint16_t>(columns),
                            static_cast<std::uint16_t>(first), static_cast<std::uint16_t>(row_count)};
        packets.push_back(encode_band(head, band, values.subspan(first * columns, row_count * columns)));
    }
    return packets;
}

std::vector<std::byte> encode_description(const PacketHead& head, std::string_view json) {
    return encode_values(head, wire::PacketKind::description, std::span(json.data(), json.size()),
                         wire::most_description_bytes);
}

std::vector<std::byte> stream_form(std::span<const std::byte> packet) {
    auto bytes = cobs_encode(packet);
    bytes.push_back(wire::stream_delimiter);
    return bytes;
}

}  // namespace footing
