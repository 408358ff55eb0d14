#include "acquisition/decode/packet_decoder.h"

#include <doctest/doctest.h>

#include <array>
#include <cstring>
#include <limits>

#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/frame/plate_layout.h"
#include "tests/decode/broken_bytes.h"

using namespace footing;

namespace {

const PacketHead head{0xA1B2C3D4U, 0x01020304U, 0x1122334455667788U, 1};
const std::array<std::int32_t, 8> eight_counts = {
    0,     1,      -1, std::numeric_limits<std::int32_t>::min(), std::numeric_limits<std::int32_t>::max(),
    70000, -70000, 42};

Bytes cells_packet() {
    return encode_cells(head, eight_counts);
}

/// Writes a number over a packet and makes its checksum right again: a sender that means what it says.
template <typename Number>
Bytes restated(Bytes packet, std::size_t offset, Number number) {
    write_little_endian(packet, offset, number);
    const std::size_t checked = packet.size() - wire::checksum_bytes;
    write_little_endian(packet, checked, crc32c(std::span(packet).first(checked)));
    return packet;
}

}  // namespace

// Source: the wire format's own table (docs/device_protocol.md), byte by byte.
TEST_CASE("A packet of cells has every byte where the protocol puts it") {
    const std::array<std::int32_t, 2> counts = {1, -2};
    const Bytes packet = encode_cells(head, counts);
    const Bytes expected = bytes_of({'F',  'G',  1,    2,                             // magic, version, kind
                                     0xD4, 0xC3, 0xB2, 0xA1,                          // serial number
                                     4,    3,    2,    1,                             // counter
                                     0x88, 0x77, 0x66, 0x55, 0x44, 0x33, 0x22, 0x11,  // device time
                                     1,    0,    2,    0,                             // inputs, count
                                     1,    0,    0,    0,    0xFE, 0xFF, 0xFF, 0xFF});  // values
    REQUIRE(packet.size() == expected.size() + 4);
    CHECK(cut_at(packet, expected.size()) == expected);
    CHECK(read_little_endian<std::uint32_t>(packet, expected.size()) == crc32c(expected));
}

TEST_CASE("What is encoded is decoded") {
    const Bytes bytes = cells_packet();
    const DecodedPacket decoded = decode_packet(bytes);
    REQUIRE(decoded.verdict == Verdict::frame);
    CHECK(decoded.length == bytes.size());
    CHECK(decoded.packet.head == head);
    CHECK(decoded.packet.kind == wire::PacketKind::cells);
    REQUIRE(decoded.packet.count == 8);
    std::array<std::int32_t, 8> counts{};
    copy_counts(decoded.packet, counts);
    CHECK(counts == eight_counts);

    const std::array<float, 12> components = {1.5F, -2.25F, 800.0F, 0.1F, 0.2F, 0.3F,
                                              0.0F, 0.0F,   1.0F,   2.0F, 3.0F, 4.0F};
    const Bytes plates = encode_components(head, components);
    const auto packet = decode_datagram(plates);
    REQUIRE(packet.has_value());
    std::array<double, 12> values{};
    copy_components(*packet, values);
    for (std::size_t i = 0; i < values.size(); ++i) CHECK(values[i] == static_cast<double>(components[i]));

    const Bytes said = encode_description(head, R"({"name":"mat"})");
    const auto description = decode_datagram(said);
    REQUIRE(description.has_value());
    CHECK(description_text(*description) == R"({"name":"mat"})");
}

TEST_CASE("Cut at any byte, a packet needs more and is never invented") {
    const Bytes whole = cells_packet();
    for (std::size_t length = 0; length < whole.size(); ++length) {
        CAPTURE(length);
        CHECK(decode_packet(cut_at(whole, length)).verdict == Verdict::need_more);
        CHECK_FALSE(decode_datagram(cut_at(whole, length)).has_value());
    }
}

TEST_CASE("With any one bit flipped, a packet is no frame") {
    for (const Bytes& whole : {cells_packet(), encode_description(head, "{}")}) {
        for (std::size_t bit = 0; bit < whole.size() * 8; ++bit) {
            CAPTURE(bit);
            CHECK(decode_packet(flip_bit(whole, bit)).verdict != Verdict::frame);
        }
    }
}

TEST_CASE("With any two bits flipped, a short packet is no frame") {
    const std::array<std::int32_t, 1> one = {7};
    const Bytes whole = encode_cells(head, one);
    for (std::size_t first = 0; first < whole.size() * 8; ++first) {
        for (std::size_t second = first + 1; second < whole.size() * 8; ++second) {
            REQUIRE(decode_packet(flip_bit(flip_bit(whole, first), second)).verdict != Verdict::frame);
        }
    }
}

TEST_CASE("A datagram that is longer than its packet is refused") {
    CHECK_FALSE(decode_datagram(joined({cells_packet(), bytes_of({0})})).has_value());
    CHECK(decode_packet(joined({cells_packet(), bytes_of({0})})).verdict == Verdict::frame);
}

TEST_CASE("A correct checksum does not make an impossible packet possible") {
    CHECK(decode_packet(restated(cells_packet(), wire::magic_offset, std::uint16_t{0x4747})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::version_offset, std::uint8_t{2})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::kind_offset, std::uint8_t{0})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::kind_offset, std::uint8_t{5})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::count_offset, std::uint16_t{0})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::count_offset, std::uint16_t{257})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::count_offset, std::uint16_t{65535})).verdict ==
          Verdict::invalid);
    CHECK(
        decode_packet(restated(cells_packet(), wire::device_time_offset, std::uint64_t{1} << 63U)).verdict ==
        Verdict::invalid);
    // A count that is possible, but not with these bytes.
    CHECK(decode_packet(restated(cells_packet(), wire::count_offset, std::uint16_t{7})).verdict ==
          Verdict::invalid);
    CHECK(decode_packet(restated(cells_packet(), wire::count_offset, std::uint16_t{9})).verdict ==
          Verdict::need_more);
    // Components come in sixes.
    const std::array<float, 6> plate{};
    CHECK(decode_packet(restated(encode_components(head, plate), wire::count_offset, std::uint16_t{5}))
              .verdict == Verdict::invalid);
}

TEST_CASE("A band that does not lie within its grid is refused") {
    const std::vector<std::uint16_t> values(6, 9);
    const Bytes band = encode_grid_bands(head, 3, 2, values).at(0);
    REQUIRE(decode_datagram(band).has_value());
    const auto refused = [&](std::size_t offset, std::uint16_t number) {
        return decode_packet(restated(band, offset, number)).verdict == Verdict::invalid;
    };
    CHECK(refused(wire::band_rows_offset, 2));  // rows beyond the last
    CHECK(refused(wire::band_rows_offset, 0));
    CHECK(refused(wire::band_columns_offset, 3));  // count does not fit
    CHECK(refused(wire::band_columns_offset, 0));
    CHECK(refused(wire::band_first_row_offset, 1));
    CHECK(refused(wire::band_first_row_offset, 65535));
    CHECK(refused(wire::band_row_count_offset, 0));
    CHECK(refused(wire::band_row_count_offset, 4));
    CHECK(refused(wire::band_rows_offset, 65535));  // more elements than any mat has
}

TEST_CASE("No encoder makes a packet that is too long") {
    CHECK(encode_cells(head, std::vector<std::int32_t>(most_cells, 1)).size() == 28 + 4 * most_cells);
    CHECK(encode_cells(head, std::vector<std::int32_t>(most_cells + 1, 1)).empty());
    CHECK(encode_components(head, std::vector<float>(most_plates * components_per_plate + 6, 1.0F)).empty());
    CHECK(encode_description(head, std::string(wire::most_description_bytes, ' ')).size() ==
          wire::most_packet_bytes);
    CHECK(encode_description(head, std::string(wire::most_description_bytes + 1, ' ')).empty());
    CHECK(encode_grid_bands(head, 0, 5, {}).empty());
    CHECK(encode_grid_bands(head, 2, 2, std::vector<std::uint16_t>(5)).empty());
    CHECK(encode_grid_bands(head, 1, 709, std::vector<std::uint16_t>(709)).empty());
    for (const std::size_t columns : {1U, 48U, 64U, 128U, 708U}) {
        const std::size_t rows = most_grid_values / columns;
        const auto bands =
            encode_grid_bands(head, rows, columns, std::vector<std::uint16_t>(rows * columns, 5));
        std::size_t rows_seen = 0;
        for (const Bytes& band : bands) {
            CHECK(band.size() <= wire::most_packet_bytes);
            const auto packet = decode_datagram(band);
            REQUIRE(packet.has_value());
            CHECK(packet->first_row == rows_seen);
            rows_seen += packet->row_count;
        }
        CHECK(rows_seen == rows);
    }
}
