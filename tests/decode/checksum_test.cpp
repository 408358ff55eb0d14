#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "acquisition/decode/cobs.h"
#include "acquisition/decode/crc32c.h"
#include "tests/decode/broken_bytes.h"

using namespace footing;

namespace {

Bytes counting(int from, int to) {
    Bytes bytes;
    for (int value = from; value <= to; ++value) bytes.push_back(static_cast<std::byte>(value & 0xFF));
    return bytes;
}

Bytes decoded(const Bytes& encoded) {
    Bytes into(encoded.size() + 1);
    const auto length = cobs_decode(encoded, into);
    REQUIRE(length.has_value());
    into.resize(*length);
    return into;
}

}  // namespace

// Source: check value of the catalogue of parametrised CRC algorithms (CRC-32/ISCSI); RFC 3720, appendix B.4
// (iSCSI) for the others, where the bytes stand in the order of the wire.
TEST_CASE("CRC-32C gives the published values") {
    CHECK(crc32c(bytes_of("123456789")) == 0xE3069283U);
    CHECK(crc32c(Bytes(32, std::byte{0x00})) == 0x8A9136AAU);
    CHECK(crc32c(Bytes(32, std::byte{0xFF})) == 0x62A8AB43U);
    CHECK(crc32c(counting(0x00, 0x1F)) == 0x46DD794EU);
    Bytes falling = counting(0x00, 0x1F);
    CHECK(crc32c(Bytes(falling.rbegin(), falling.rend())) == 0x113FDB5CU);
    CHECK(crc32c({}) == 0U);
}

// Source: Cheshire & Baker, IEEE/ACM Transactions on Networking 7:159 (1999), its example packet and rules;
// the short ones are the customary examples of the algorithm's public descriptions.
TEST_CASE("COBS gives the published encodings, and back") {
    struct Example {
        Bytes plain, encoded;
    };
    const std::vector<Example> examples = {
        {{}, bytes_of({1})},
        {bytes_of({0}), bytes_of({1, 1})},
        {bytes_of({0, 0}), bytes_of({1, 1, 1})},
        {bytes_of({0, 0x11, 0}), bytes_of({1, 2, 0x11, 1})},
        {bytes_of({0x11, 0x22, 0, 0x33}), bytes_of({3, 0x11, 0x22, 2, 0x33})},
        {bytes_of({0x11, 0x22, 0x33, 0x44}), bytes_of({5, 0x11, 0x22, 0x33, 0x44})},
        {bytes_of({0x11, 0, 0, 0}), bytes_of({2, 0x11, 1, 1, 1})},
        {counting(1, 0xFE), joined({bytes_of({0xFF}), counting(1, 0xFE)})},
        {joined({bytes_of({0}), counting(1, 0xFE)}), joined({bytes_of({1, 0xFF}), counting(1, 0xFE)})},
        {counting(1, 0xFF), joined({bytes_of({0xFF}), counting(1, 0xFE), bytes_of({2, 0xFF})})},
        {joined({counting(2, 0xFF), bytes_of({0})}),
         joined({bytes_of({0xFF}), counting(2, 0xFF), bytes_of({1, 1})})},
        {joined({counting(3, 0xFF), bytes_of({0, 1})}),
         joined({bytes_of({0xFE}), counting(3, 0xFF), bytes_of({2, 1})})},
        {bytes_of({0x45, 0, 0, 0x2C, 0x4C, 0x79, 0, 0, 0x40, 6, 0x4F, 0x37}),
         bytes_of({2, 0x45, 1, 4, 0x2C, 0x4C, 0x79, 1, 5, 0x40, 6, 0x4F, 0x37})},
    };
    for (const Example& example : examples) {
        CHECK(cobs_encode(example.plain) == example.encoded);
        CHECK(decoded(example.encoded) == example.plain);
    }
}

TEST_CASE("COBS decoding accepts the other ending of a run of 254") {
    CHECK(decoded(joined({bytes_of({0xFF}), counting(1, 0xFE), bytes_of({1})})) == counting(1, 0xFE));
}

TEST_CASE("COBS decoding refuses what is no encoding") {
    Bytes into(600);
    CHECK_FALSE(cobs_decode({}, into).has_value());
    CHECK_FALSE(cobs_decode(bytes_of({0}), into).has_value());
    CHECK_FALSE(cobs_decode(bytes_of({3, 1}), into).has_value());        // the code points beyond the end
    CHECK_FALSE(cobs_decode(bytes_of({4, 1, 0, 1}), into).has_value());  // a zero inside
    Bytes small(2);
    CHECK_FALSE(cobs_decode(bytes_of({4, 1, 1, 1}), small).has_value());
    CHECK_FALSE(cobs_decode(bytes_of({3, 1, 1, 2, 1}), small).has_value());  // no room for the zero
}

TEST_CASE("COBS: whatever is encoded comes back, without a zero, within the stated overhead, in place") {
    std::mt19937 chance(7);
    for (int turn = 0; turn < 2000; ++turn) {
        Bytes plain(chance() % 1500);
        const unsigned zeros = 1 + chance() % 300;
        for (std::byte& byte : plain)
            byte = static_cast<std::byte>(chance() % zeros == 0 ? 0 : chance() % 256);
        Bytes encoded = cobs_encode(plain);
        REQUIRE(std::ranges::find(encoded, std::byte{0}) == encoded.end());
        REQUIRE(encoded.size() <= 1 + plain.size() + (plain.size() + 253) / 254);
        REQUIRE(encoded.size() <= cobs_most_bytes(plain.size()));
        const auto length = cobs_decode(encoded, encoded);
        REQUIRE(length == plain.size());
        encoded.resize(*length);
        REQUIRE(encoded == plain);
    }
}
