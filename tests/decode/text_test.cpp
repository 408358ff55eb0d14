#include <doctest/doctest.h>

#include <array>
#include <string>

#include "acquisition/decode/text_line.h"
#include "acquisition/decode/text_stream.h"
#include "tests/decode/broken_bytes.h"

using namespace footing;

namespace {

std::optional<TextFrame> decode(std::string_view line) {
    std::array<std::int32_t, most_cells> into{};
    return decode_text_line(line, into);
}

}  // namespace

// Source: NMEA 0183 states the XOR of all characters between '$' and '*'; this position sentence with
// checksum 47 is the customary example of public descriptions of the standard (from memory).
TEST_CASE("The text checksum is that of NMEA 0183") {
    CHECK(nmea_checksum("GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,") == 0x47);
    CHECK(nmea_checksum("") == 0);
}

TEST_CASE("A text line is read back as it was written") {
    const std::array<std::int32_t, 4> counts = {-2147483648, 2147483647, 0, -17};
    for (const TextChecksum checksum : {TextChecksum::none, TextChecksum::nmea}) {
        std::string line = encode_text_line(4294967295U, 4294967295U, counts, checksum);
        REQUIRE(line.back() == '\n');
        line.pop_back();
        std::array<std::int32_t, 4> into{};
        const auto frame = decode_text_line(line, into);
        REQUIRE(frame.has_value());
        CHECK(frame->counter == 4294967295U);
        CHECK(frame->microseconds == 4294967295U);
        CHECK(frame->count == 4);
        CHECK(into == counts);
    }
    CHECK(encode_text_line(1, 2, std::array<std::int32_t, 1>{3}, TextChecksum::nmea) == "1,2,3*30\n");
}

TEST_CASE("A text line that is not whole and correct is refused") {
    CHECK(decode("1,2,3").has_value());
    CHECK(decode(" 1, 2 ,3").has_value());
    for (const char* line : {"",
                             ",",
                             "1",
                             "1,2",
                             "1,2,",
                             "1,,3",
                             "1,2,3,",
                             "a,2,3",
                             "1,2,x",
                             "1,2,3x",
                             "1,2,3.5",
                             "-1,2,3",
                             "1,-2,3",
                             "4294967296,2,3",
                             "1,2,2147483648",
                             "1,2,3*",
                             "1,2,3*3",
                             "1,2,3*31",
                             "1,2,3*030",
                             "1,2,3*3G",
                             "1,2,3**30",
                             "1,2,+3",
                             "1,2,0x3"}) {
        CAPTURE(line);
        CHECK_FALSE(decode(line).has_value());
    }
    CHECK(decode("1,2,3*30").has_value());
    std::array<std::int32_t, 2> two{};
    CHECK_FALSE(decode_text_line("1,2,3,4,5", two).has_value());
}

TEST_CASE("With a checksum, any one bit flipped in a line is found") {
    const std::array<std::int32_t, 3> counts = {100, -20, 3000};
    const std::string line = encode_text_line(12345, 678900, counts, TextChecksum::nmea);
    for (std::size_t bit = 0; bit < (line.size() - 1) * 8; ++bit) {
        std::string broken = line.substr(0, line.size() - 1);
        broken[bit / 8] = static_cast<char>(broken[bit / 8] ^ (1 << (bit % 8)));
        CAPTURE(broken);
        const auto frame = decode(broken);
        // Hexadecimal digits may be small letters: 'D' with bit 5 flipped is 'd', the same checksum.
        const bool same_digits = bit / 8 >= line.size() - 3 && bit % 8 == 5;
        if (!same_digits) CHECK_FALSE(frame.has_value());
    }
}

TEST_CASE("Lines come out of a stream: the first is passed over, comments and empty lines say nothing") {
    const Bytes line =
        bytes_of("23,100,1,2\r\n# a board says hello\n\n\r\n24,1100,1,2\r\n25,2100,3,x\n26,3100,5,6\n");
    for (std::size_t piece = 1; piece < line.size(); ++piece) {
        TextStream stream;
        std::vector<std::uint32_t> counters;
        std::size_t invalid = 0;
        for (std::size_t at = 0; at < line.size(); at += piece) {
            auto rest = std::span(line).subspan(at, std::min(piece, line.size() - at));
            while (!rest.empty()) {
                const auto step = stream.step(rest);
                rest = rest.subspan(step.taken);
                if (step.verdict == Verdict::frame) {
                    counters.push_back(step.frame.counter);
                    CHECK(step.counts.size() == 2);
                }
                if (step.verdict == Verdict::invalid) ++invalid;
            }
        }
        CHECK(counters == std::vector<std::uint32_t>{24, 26});
        CHECK(invalid == 1);
    }
}

TEST_CASE("A line without an end is counted once and held in bounded memory") {
    TextStream stream;
    const Bytes line = joined({bytes_of("x\n"), Bytes(100'000, std::byte{'1'}), bytes_of("\n5,6,7\n")});
    std::size_t frames = 0;
    std::size_t invalid = 0;
    for (auto rest = std::span(line); !rest.empty();) {
        const auto step = stream.step(rest);
        rest = rest.subspan(step.taken);
        if (step.verdict == Verdict::frame) ++frames;
        if (step.verdict == Verdict::invalid) ++invalid;
    }
    CHECK(frames == 1);
    CHECK(invalid == 1);
}
