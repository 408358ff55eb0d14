#include "acquisition/pipeline/live_queue.h"

#include <doctest/doctest.h>

#include <array>
#include <atomic>
#include <thread>

#include "tests/decode/collecting_sink.h"

using namespace footing;

namespace {

void push(LiveQueue& queue, std::uint64_t counter) {
    const std::array<std::int32_t, 2> counts = {static_cast<std::int32_t>(counter), -1};
    queue.push_frame({{counter, counter * 1000, 0, 0}, std::span<const std::int32_t>(counts)});
}

}  // namespace

TEST_CASE("Drained in time, the screen's queue gives everything") {
    LiveQueue queue(8, 2);
    CollectingSink sink;
    for (std::uint64_t i = 0; i < 100; ++i) {
        push(queue, i);
        if (i % 5 == 4) CHECK(queue.drain(sink) == 5);
    }
    CHECK(sink.stamps.size() == 100);
    CHECK(sink.gaps.empty());
    CHECK(queue.given_way() == 0);
    CHECK(sink.values[99] == std::vector<double>{99, -1});
}

TEST_CASE("Fallen behind, the newest wins and the hole is told as a gap") {
    LiveQueue queue(8, 2);
    CollectingSink sink;
    push(queue, 0);
    queue.drain(sink);
    for (std::uint64_t i = 1; i <= 100; ++i) push(queue, i);
    CHECK_FALSE(queue.has_room());
    CHECK(queue.drain(sink) == 8);
    CHECK(queue.given_way() == 92);
    REQUIRE(sink.gaps.size() == 1);
    CHECK(sink.gaps[0] == Gap{0, 92, 0, 93'000});
    CHECK(sink.stamps.back().counter == 100);
    CHECK(queue.has_room());
}

TEST_CASE("A gap of the device comes through; one whose frame gave way becomes part of the hole") {
    LiveQueue queue(4, 2);
    CollectingSink sink;
    push(queue, 0);
    queue.push_gap({0, 9, 0, 10'000});
    push(queue, 10);
    queue.drain(sink);
    REQUIRE(sink.gaps.size() == 1);
    CHECK(sink.gaps[0].frames_missing == 9);
    for (std::uint64_t i = 11; i < 20; ++i) push(queue, i);
    queue.push_gap({19, 5, 19'000, 25'000});
    push(queue, 25);
    queue.drain(sink);
    REQUIRE(sink.gaps.size() == 3);
    CHECK(sink.gaps[1].after_counter == 10);
    CHECK(sink.gaps[2].frames_missing == 5);
    CHECK(sink.events.back().stamp.counter == 25);
}

TEST_CASE("A restart of the device comes through although its counter has no hole") {
    LiveQueue queue(8, 2);
    CollectingSink sink;
    push(queue, 0);
    queue.push_gap({0, 0, 0, 5'000'000});
    push(queue, 1);
    queue.drain(sink);
    REQUIRE(sink.gaps.size() == 1);
    CHECK(sink.gaps[0].frames_missing == 0);
}

TEST_CASE("Two threads: a slow reader sees whole frames, in order, up to the newest") {
    LiveQueue queue(16, 32);
    constexpr std::uint64_t total = 300'000;
    std::atomic<bool> done{false};
    std::thread device([&] {
        std::array<std::int32_t, 32> counts{};
        for (std::uint64_t i = 1; i <= total; ++i) {
            counts.fill(static_cast<std::int32_t>(i));
            queue.push_frame({{i, i * 1000, 0, 0}, std::span<const std::int32_t>(counts)});
        }
        done = true;
    });
    struct Checker final : FrameSink {
        void take_frame(const FrameView& frame) override {
            if (frame.stamp.counter <= newest) ++wrong;
            for (const std::int32_t value : std::get<std::span<const std::int32_t>>(frame.values)) {
                if (static_cast<std::uint64_t>(value) != frame.stamp.counter) ++wrong;
            }
            newest = frame.stamp.counter;
            ++frames;
        }
        void take_gap(const Gap& gap) override { missing += gap.frames_missing; }
        std::uint64_t newest = 0;
        std::uint64_t frames = 0;
        std::uint64_t missing = 0;
        std::uint64_t wrong = 0;
    } checker;
    while (!done) queue.drain(checker);
    queue.drain(checker);
    device.join();
    CHECK(checker.wrong == 0);
    CHECK(checker.newest == total);
    CHECK(checker.frames + queue.given_way() == total);
}
