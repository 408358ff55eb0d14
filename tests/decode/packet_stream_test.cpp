#include "acquisition/decode/packet_stream.h"

#include <doctest/doctest.h>

#include <array>
#include <random>

#include "tests/decode/broken_bytes.h"

using namespace footing;

namespace {

Bytes sent(std::uint32_t counter) {
    const std::array<std::int32_t, 8> counts = {0, 1, 2, 3, 256, 65536, -1, 0};
    return stream_form(encode_cells({7, counter, counter * 1000ULL, 0}, counts));
}

struct Heard {
    std::vector<std::uint32_t> counters;
    std::size_t invalid = 0;
};

Heard hear(PacketStream& stream, const Bytes& bytes, std::size_t piece = 1'000'000) {
    Heard heard;
    for (std::size_t at = 0; at < bytes.size(); at += piece) {
        auto rest = std::span(bytes).subspan(at, std::min(piece, bytes.size() - at));
        while (!rest.empty()) {
            const auto step = stream.step(rest);
            REQUIRE(step.taken > 0);
            rest = rest.subspan(step.taken);
            if (step.verdict == Verdict::frame) heard.counters.push_back(step.packet.head.counter);
            if (step.verdict == Verdict::invalid) ++heard.invalid;
        }
    }
    return heard;
}

const std::vector<std::uint32_t> one_two_three = {1, 2, 3};

}  // namespace

TEST_CASE("Packets come out of a stream however it is cut into pieces") {
    const Bytes line = joined({bytes_of({0}), sent(1), sent(2), sent(3)});
    for (std::size_t piece = 1; piece < 80; ++piece) {
        PacketStream stream;
        const Heard heard = hear(stream, line, piece);
        CHECK(heard.counters == one_two_three);
        CHECK(heard.invalid == 0);
    }
}

TEST_CASE("A line opened in the middle of a packet counts no damage") {
    const Bytes first = sent(1);
    for (std::size_t from = 1; from < first.size(); ++from) {
        PacketStream stream;
        const Bytes line = joined({std::span(first).subspan(from), sent(1), sent(2), sent(3)});
        const Heard heard = hear(stream, line);
        CHECK(heard.counters == one_two_three);
        CHECK(heard.invalid == 0);
    }
}

TEST_CASE("A damaged packet costs itself and is counted; its neighbours come") {
    const Bytes middle = sent(2);
    for (std::size_t bit = 0; bit < (middle.size() - 1) * 8; ++bit) {
        PacketStream stream;
        const Heard heard = hear(stream, joined({bytes_of({0}), sent(1), flip_bit(middle, bit), sent(3)}));
        CAPTURE(bit);
        CHECK(heard.counters == std::vector<std::uint32_t>{1, 3});
        CHECK(heard.invalid >= 1);
        CHECK(heard.invalid <= 2);  // two, when the flip made a zero
    }
}

TEST_CASE("A packet cut short costs itself, and with its zero gone the next one too") {
    const Bytes middle = sent(2);
    for (std::size_t length = 1; length < middle.size() - 1; ++length) {
        PacketStream stream;
        const Heard heard =
            hear(stream, joined({bytes_of({0}), sent(1), cut_at(middle, length), sent(3), sent(4)}));
        CHECK(heard.counters == std::vector<std::uint32_t>{1, 4});
        CHECK(heard.invalid == 1);
    }
}

TEST_CASE("Endless bytes without a zero hold no memory and are counted once") {
    PacketStream stream;
    const Bytes flood(1'000'000, std::byte{0x55});
    const Heard heard =
        hear(stream, joined({bytes_of({0}), flood, bytes_of({0}), sent(1), sent(2), sent(3)}), 997);
    CHECK(heard.counters == one_two_three);
    CHECK(heard.invalid == 1);
}

TEST_CASE("A stream of noise gives no frame, and what follows it is found") {
    std::mt19937 chance(3);
    Bytes noise(500'000);
    for (std::byte& byte : noise) byte = static_cast<std::byte>(chance() & 0xFFU);
    PacketStream stream;
    const Heard heard = hear(stream, joined({noise, bytes_of({0}), sent(1), sent(2), sent(3)}), 4096);
    CHECK(heard.counters == one_two_three);
}
