#include "acquisition/decode/grid_assembler.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "tests/decode/broken_bytes.h"

using namespace footing;

namespace {

constexpr std::size_t rows = 48;
constexpr std::size_t columns = 48;

std::vector<std::uint16_t> image(std::uint32_t counter) {
    std::vector<std::uint16_t> values(rows * columns);
    for (std::size_t i = 0; i < values.size(); ++i)
        values[i] = static_cast<std::uint16_t>(i * 31 + counter * 7);
    return values;
}

std::vector<Bytes> bands(std::uint32_t counter, std::uint16_t inputs = 0) {
    return encode_grid_bands({7, counter, counter * 2000ULL, inputs}, rows, columns, image(counter));
}

struct Assembled {
    explicit Assembled(GridAssembler& assembler) : grid(assembler) {}
    void take(const Bytes& band) {
        const auto packet = decode_datagram(band);
        REQUIRE(packet.has_value());
        const auto step = grid.take(*packet);
        if (step.verdict == Verdict::invalid) ++invalid;
        if (step.verdict != Verdict::frame) return;
        counters.push_back(step.head.counter);
        CHECK(std::ranges::equal(step.values, image(step.head.counter)));
        inputs = step.head.inputs;
    }
    void take_all(const std::vector<Bytes>& all) {
        for (const Bytes& band : all) take(band);
    }
    GridAssembler& grid;
    std::vector<std::uint32_t> counters;
    std::size_t invalid = 0;
    std::uint16_t inputs = 0;
};

}  // namespace

TEST_CASE("A grid frame is complete when all its bands came, in any order") {
    REQUIRE(bands(0).size() == 4);
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    std::mt19937 chance(5);
    std::vector<std::uint32_t> expected;
    assembled.take_all(bands(0));
    expected.push_back(0);
    for (std::uint32_t counter = 1; counter < 100; ++counter) {
        auto mixed = bands(counter);
        std::ranges::shuffle(mixed, chance);
        assembled.take_all(mixed);
        expected.push_back(counter);
    }
    CHECK(assembled.counters == expected);
    CHECK(grid.incomplete() == 0);
    CHECK(grid.duplicated() == 0);
}

TEST_CASE("Bands of two successive frames may mix") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    const auto first = bands(1);
    const auto second = bands(2);
    for (std::size_t i : {0U, 1U}) assembled.take(first[i]);
    assembled.take(second[0]);
    assembled.take(first[2]);
    for (std::size_t i : {1U, 2U, 3U}) assembled.take(second[i]);
    assembled.take(first[3]);
    CHECK(assembled.counters == std::vector<std::uint32_t>{2, 1});
    CHECK(grid.incomplete() == 0);
}

TEST_CASE("A frame that lacks any one band is counted as incomplete, and its neighbours come") {
    for (std::size_t lacking = 0; lacking < 4; ++lacking) {
        GridAssembler grid(rows, columns);
        Assembled assembled(grid);
        assembled.take_all(bands(1));
        auto second = bands(2);
        const Bytes late = second[lacking];
        second.erase(second.begin() + static_cast<std::ptrdiff_t>(lacking));
        assembled.take_all(second);
        assembled.take_all(bands(3));
        assembled.take_all(bands(4));
        CHECK(assembled.counters == std::vector<std::uint32_t>{1, 3, 4});
        CHECK(grid.incomplete() == 1);
        assembled.take(late);  // after it was given up, it changes nothing
        assembled.take_all(bands(5));
        CHECK(assembled.counters == std::vector<std::uint32_t>{1, 3, 4, 5});
        CHECK(grid.incomplete() == 1);
    }
}

TEST_CASE("Bands that come twice change nothing; a whole frame that comes twice is counted") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    for (const Bytes& band : bands(1)) {
        assembled.take(band);
        assembled.take(band);
    }
    assembled.take_all(bands(2));
    assembled.take_all(bands(2));
    assembled.take_all(bands(3));
    CHECK(assembled.counters == std::vector<std::uint32_t>{1, 2, 3});
    CHECK(grid.duplicated() == 1);
    CHECK(grid.incomplete() == 0);
}

TEST_CASE("A line opened in the middle of a frame counts no loss") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    const auto first = bands(1);
    assembled.take(first[2]);
    assembled.take(first[3]);
    for (std::uint32_t counter = 2; counter < 6; ++counter) assembled.take_all(bands(counter));
    CHECK(assembled.counters == std::vector<std::uint32_t>{2, 3, 4, 5});
    CHECK(grid.incomplete() == 0);
}

TEST_CASE("Counters that wrap and devices that restart do not stop a grid") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    for (const std::uint32_t counter : {4294967294U, 4294967295U, 0U, 1U}) assembled.take_all(bands(counter));
    auto cut = bands(70000);
    cut.pop_back();
    assembled.take_all(cut);
    for (const std::uint32_t counter : {5U, 6U, 7U}) assembled.take_all(bands(counter));
    CHECK(assembled.counters == std::vector<std::uint32_t>{4294967294U, 4294967295U, 0U, 1U, 5U, 6U, 7U});
    CHECK(grid.incomplete() == 1);
}

TEST_CASE("A trigger in any band is a trigger of the frame; foreign sizes are refused") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    auto parts = bands(1);
    parts[2] = bands(1, trigger_bit)[2];
    assembled.take_all(parts);
    CHECK(assembled.inputs == trigger_bit);
    const std::vector<std::uint16_t> small(4, 1);
    assembled.take(encode_grid_bands({7, 2, 0, 0}, 2, 2, small).at(0));
    CHECK(assembled.invalid == 1);
}

TEST_CASE("What is incomplete at the end is counted at the end") {
    GridAssembler grid(rows, columns);
    Assembled assembled(grid);
    assembled.take(bands(1)[0]);
    CHECK(grid.incomplete() == 0);
    grid.give_up();
    CHECK(grid.incomplete() == 1);
}
