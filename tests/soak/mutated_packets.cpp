// Mutated packets, streams, text lines and descriptions: see mutations.h.
#include "acquisition/decode/text_line.h"
#include "tests/device/sent_packets.h"
#include "tests/soak/mutations.h"

int main(int count, char** words) {
    using namespace footing;
    std::vector<Input> seeds;
    const std::vector<std::uint16_t> image(48 * 48, 321);
    std::vector<std::vector<std::byte>> packets = encode_grid_bands(test_head(3), 48, 48, image);
    packets.push_back(cells(7));
    packets.push_back(described(eight_cells()));
    packets.push_back(described(small_mat()));
    packets.push_back(encode_components(test_head(9), std::array<float, 12>{1.5F, 2.5F, 800.25F}));
    for (const std::vector<std::byte>& packet : packets) {
        // As they are; with the checksum put right after the change; as a stream; as a stream put right.
        seeds.push_back(seed_of(0, packet));
        seeds.push_back(seed_of(1, std::span(packet).first(packet.size() - 4)));
        seeds.push_back(seed_of(2, stream_form(packet)));
        seeds.push_back(seed_of(3, std::span(packet).first(packet.size() - 4)));
    }
    seeds.push_back(
        seed_of(4, encode_text_line(4711, 5'000'000, std::array{1, -2, 3, 4}, TextChecksum::nmea)));
    seeds.push_back(
        seed_of(4, encode_text_line(4711, 5'000'000, std::array{1, -2, 3, 4}, TextChecksum::none)));
    seeds.push_back(seed_of(5, description_json(eight_cells())));
    seeds.push_back(seed_of(5, description_json(small_mat())));
    for (const std::uint8_t order_or_cobs : {6, 7, 8}) seeds.push_back(seed_of(order_or_cobs, cells(1)));
    return survive_mutations("packets and lines", seeds, count, words);
}
