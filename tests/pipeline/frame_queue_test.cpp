#include "acquisition/pipeline/frame_queue.h"

#include <doctest/doctest.h>

#include <array>
#include <atomic>
#include <thread>

#include "tests/decode/collecting_sink.h"

using namespace footing;

namespace {

FrameStamp stamp_of(std::uint64_t counter) {
    return {counter, counter * 1000, static_cast<std::int64_t>(counter) * 1'000'000,
            static_cast<std::uint16_t>(counter % 2)};
}

}  // namespace

TEST_CASE("Frames of every kind and gaps come out as they went in, in order") {
    FrameQueue queue(100'000, 12);
    const std::array<std::int32_t, 3> counts = {1, -2, 3};
    const std::array<std::uint16_t, 5> grid = {9, 8, 7, 6, 65535};
    const std::array<double, 12> components = {0.5, -1e300, 3};
    REQUIRE(queue.push_frame({stamp_of(1), std::span<const std::int32_t>(counts)}));
    REQUIRE(queue.push_gap({1, 5, 1000, 7000}));
    REQUIRE(queue.push_frame({stamp_of(7), std::span<const std::uint16_t>(grid)}));
    REQUIRE(queue.push_frame({stamp_of(8), std::span<const double>(components)}));
    CollectingSink sink;
    CHECK(queue.drain(sink) == 3);
    CHECK(queue.empty());
    REQUIRE(sink.events.size() == 4);
    CHECK(sink.stamps == std::vector{stamp_of(1), stamp_of(7), stamp_of(8)});
    CHECK(sink.events[1].gap == Gap{1, 5, 1000, 7000});
    CHECK(sink.values[0] == std::vector<double>{1, -2, 3});
    CHECK(sink.values[1] == std::vector<double>{9, 8, 7, 6, 65535});
    CHECK(sink.values[2] == std::vector<double>(components.begin(), components.end()));
    CHECK(queue.drain(sink) == 0);
}

TEST_CASE("A full queue says so and keeps what it has, whole") {
    FrameQueue queue(1000, 8);
    const std::array<std::int32_t, 8> counts{};
    std::uint64_t pushed = 0;
    while (queue.push_frame({stamp_of(pushed), std::span<const std::int32_t>(counts)})) ++pushed;
    CHECK(pushed >= 2);
    CHECK(pushed < 20);
    CHECK_FALSE(queue.has_room());
    CollectingSink sink;
    CHECK(queue.drain(sink) == pushed);
    CHECK(queue.has_room());
    for (std::uint64_t i = 0; i < pushed; ++i) CHECK(sink.stamps[i] == stamp_of(i));
}

TEST_CASE("A frame that is larger than was said is refused") {
    FrameQueue queue(10'000, 2);
    const std::array<double, 3> three{};
    CHECK_FALSE(queue.push_frame({stamp_of(1), std::span<const double>(three)}));
    CHECK(queue.empty());
}

TEST_CASE("Two threads: a million frames of changing size pass whole and in order") {
    FrameQueue queue(1 << 16, 64);
    constexpr std::uint64_t total = 1'000'000;
    std::thread device([&] {
        std::array<std::int32_t, 64> counts{};
        for (std::uint64_t i = 0; i < total; ++i) {
            counts.fill(static_cast<std::int32_t>(i));
            const std::span<const std::int32_t> values(counts.data(), i % 65);
            while (!queue.push_frame({stamp_of(i), values})) std::this_thread::yield();
        }
    });
    struct Checker final : FrameSink {
        void take_frame(const FrameView& frame) override {
            const auto values = std::get<std::span<const std::int32_t>>(frame.values);
            bool right = frame.stamp == stamp_of(next) && values.size() == next % 65;
            for (const std::int32_t value : values) right = right && value == static_cast<std::int32_t>(next);
            if (!right) ++wrong;
            ++next;
        }
        void take_gap(const Gap&) override { ++wrong; }
        std::uint64_t next = 0;
        std::uint64_t wrong = 0;
    } checker;
    while (checker.next < total) {
        if (queue.drain(checker) == 0) std::this_thread::yield();
    }
    device.join();
    CHECK(checker.wrong == 0);
    CHECK(queue.empty());
}
