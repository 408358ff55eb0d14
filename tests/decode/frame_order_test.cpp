#include "acquisition/decode/frame_order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <random>
#include <set>

#include "tests/decode/collecting_sink.h"

using namespace footing;

namespace {

constexpr std::uint64_t period_us = 1000;

/// A device of one cell that shows its counter as its value, and the order under test.
struct Bench {
    explicit Bench(FrameOrderOptions options = {}) : order(options, 1) {}

    void send(std::uint32_t counter, std::uint64_t time_us, std::int64_t host_ns) {
        const std::array<std::int32_t, 1> value = {static_cast<std::int32_t>(counter)};
        order.take({counter, time_us, host_ns, 0}, std::span<const std::int32_t>(value), sink);
    }
    void send(std::uint32_t counter) {
        send(counter, counter * period_us, static_cast<std::int64_t>(counter * period_us) * 1000);
    }

    void check_values_match_counters() const {
        for (std::size_t i = 0; i < sink.stamps.size(); ++i) {
            REQUIRE(sink.values[i][0] ==
                    static_cast<std::int32_t>(static_cast<std::uint32_t>(sink.stamps[i].counter)));
        }
    }

    FrameOrder order;
    CollectingSink sink;
};

}  // namespace

// R1 as it is written.
TEST_CASE("Of 10 minutes at 1 kHz with 1, 7 and 1000 frames dropped, exactly those are reported") {
    struct Hole {
        std::uint32_t first, length;
    };
    const std::vector<Hole> holes = {{1000, 1},    {60'007, 7},  {250'000, 1000},
                                     {400'000, 1}, {400'002, 7}, {599'998, 1}};
    for (const std::size_t window : {std::size_t{0}, std::size_t{8}}) {
        FrameOrderOptions options;
        options.window_frames = window;
        Bench bench(options);
        for (std::uint32_t counter = 0; counter < 600'000; ++counter) {
            const bool dropped = std::ranges::any_of(holes, [&](const Hole& hole) {
                return counter >= hole.first && counter < hole.first + hole.length;
            });
            if (!dropped) bench.send(counter);
        }
        bench.order.release(bench.sink);
        REQUIRE(bench.sink.gaps.size() == holes.size());
        for (std::size_t i = 0; i < holes.size(); ++i) {
            const Gap& gap = bench.sink.gaps[i];
            CHECK(gap.after_counter == holes[i].first - 1);
            CHECK(gap.frames_missing == holes[i].length);
            CHECK(gap.from_time_us == (holes[i].first - 1) * period_us);
            CHECK(gap.to_time_us == (holes[i].first + holes[i].length) * period_us);
        }
        CHECK(bench.order.lost() == 1017);
        CHECK(bench.order.duplicated() == 0);
        CHECK(bench.order.reordered() == 0);
        CHECK(bench.order.frames() == 600'000 - 1017);
        // Later samples keep their time, and the gap comes right before the frame that follows it.
        for (const FrameStamp& stamp : bench.sink.stamps)
            REQUIRE(stamp.device_time_us == stamp.counter * period_us);
        for (std::size_t i = 0; i + 1 < bench.sink.events.size(); ++i) {
            if (bench.sink.events[i].what != CollectingSink::Event::What::gap) continue;
            const Gap& gap = bench.sink.events[i].gap;
            REQUIRE(bench.sink.events[i + 1].stamp.counter == gap.after_counter + gap.frames_missing + 1);
        }
        bench.check_values_match_counters();
    }
}

TEST_CASE("Without a fault nothing is reported, from any first counter, across the wrap") {
    Bench bench;
    const std::uint32_t first = 4294967000U;
    for (std::uint32_t i = 0; i < 1000; ++i) bench.send(first + i, (1ULL << 40U) + i * period_us, 0);
    CHECK(bench.sink.gaps.empty());
    CHECK(bench.order.frames() == 1000);
    CHECK(bench.sink.stamps.front().counter == first);
    CHECK(bench.sink.stamps.back().counter == std::uint64_t{first} + 999);
    CHECK(bench.sink.stamps.back().device_time_us == (1ULL << 40U) + 999 * period_us);
}

TEST_CASE("A gap across the wrap has its right length") {
    Bench bench;
    for (const std::uint32_t counter : {4294967290U, 4294967291U, 20U, 21U}) {
        bench.send(counter, std::uint64_t{counter - 4294967290U} * period_us, 0);
    }
    REQUIRE(bench.sink.gaps.size() == 1);
    CHECK(bench.sink.gaps[0].frames_missing == 24);
    CHECK(bench.order.lost() == 24);
}

TEST_CASE("Late frames within the window are put in order, and nothing is lost") {
    std::mt19937 chance(9);
    Bench bench;
    std::vector<std::uint32_t> sent;
    for (std::uint32_t i = 0; i < 20'000; ++i) sent.push_back(i);
    for (std::size_t i = 1; i + 4 < sent.size(); i += 5)
        std::shuffle(sent.begin() + i, sent.begin() + i + 4, chance);
    for (const std::uint32_t counter : sent) bench.send(counter);
    bench.order.release(bench.sink);
    CHECK(bench.sink.gaps.empty());
    CHECK(bench.order.frames() == sent.size());
    CHECK(bench.order.reordered() == 0);
    for (std::size_t i = 0; i < sent.size(); ++i) REQUIRE(bench.sink.stamps[i].counter == i);
    bench.check_values_match_counters();
}

TEST_CASE("A frame that comes after its hole was told is dropped and counted as reordered") {
    Bench bench;
    for (std::uint32_t i = 0; i < 40; ++i) {
        if (i != 10) bench.send(i);
    }
    bench.send(10);
    bench.send(40);
    CHECK(bench.order.lost() == 1);
    CHECK(bench.order.reordered() == 1);
    CHECK(bench.order.duplicated() == 0);
    CHECK(bench.sink.gaps.size() == 1);
    CHECK(bench.sink.stamps.back().counter == 40);
}

TEST_CASE("Duplicates are dropped and counted, new ones, old ones and those held back") {
    Bench bench;
    for (std::uint32_t i = 0; i < 20; ++i) bench.send(i);
    bench.send(19);
    bench.send(7);
    bench.send(21);  // waits for 20
    bench.send(21);
    bench.send(20);
    CHECK(bench.order.duplicated() == 3);
    CHECK(bench.order.reordered() == 0);
    CHECK(bench.order.lost() == 0);
    CHECK(bench.sink.gaps.empty());
    CHECK(bench.order.frames() == 22);
}

TEST_CASE("A hole is told when time passes, even if no further frame comes") {
    Bench bench;
    bench.send(0);
    bench.send(2);
    CHECK(bench.sink.stamps.size() == 1);
    bench.order.pass_time(2 * 1'000'000 + 5'000'000, bench.sink);
    CHECK(bench.sink.stamps.size() == 1);
    bench.order.pass_time(2 * 1'000'000 + 11'000'000, bench.sink);
    CHECK(bench.sink.stamps.size() == 2);
    CHECK(bench.sink.gaps.size() == 1);
}

TEST_CASE("A device that restarts gives one gap without a length; counter and time go on") {
    Bench bench;
    constexpr std::int64_t boot_ns = 3'000'000'000;
    for (std::uint32_t i = 5000; i < 6000; ++i) bench.send(i);
    const std::int64_t newest_host_ns = bench.sink.stamps.back().host_time_ns;
    for (std::uint32_t i = 0; i < 100; ++i) {
        bench.send(i, i * period_us,
                   newest_host_ns + boot_ns + static_cast<std::int64_t>(i * period_us) * 1000);
    }
    REQUIRE(bench.sink.gaps.size() == 1);
    CHECK(bench.sink.gaps[0] == Gap{5999, 0, 5999 * period_us, 5999 * period_us + boot_ns / 1000});
    CHECK(bench.order.lost() == 0);
    CHECK(bench.order.frames() == 1100);
    CHECK(bench.sink.stamps.back().counter == 6099);
    CHECK(bench.sink.stamps.back().device_time_us == 5999 * period_us + boot_ns / 1000 + 99 * period_us);
}

TEST_CASE("A restart is found however the counter falls") {
    // From far up the counter's range, where a jump to zero looks like a jump ahead.
    Bench high;
    for (std::uint32_t i = 0; i < 10; ++i) high.send(3'000'000'000U + i, 1'000'000'000ULL + i * period_us, i);
    for (std::uint32_t i = 0; i < 10; ++i) high.send(i, i * period_us, 1000 + i);
    CHECK(high.sink.gaps.size() == 1);
    CHECK(high.order.lost() == 0);
    CHECK(high.order.frames() == 20);
    // After so few frames that the new ones look like the old ones sent again: seen a few frames later.
    Bench early;
    for (std::uint32_t i = 0; i < 30; ++i) early.send(i);
    for (std::uint32_t i = 0; i < 100; ++i) early.send(i, i * period_us, 1'000'000'000 + i * 1'000'000LL);
    CHECK(early.sink.gaps.size() == 1);
    CHECK(early.order.frames() + early.order.duplicated() + early.order.reordered() == 130);
    CHECK(early.order.frames() >= 30 + 100 - 8);
}

TEST_CASE("Many late frames in a row are no restart") {
    Bench bench;
    for (std::uint32_t i = 0; i < 30; ++i) bench.send(i);
    bench.send(50);  // overtakes twenty others
    for (std::uint32_t i = 30; i < 50; ++i) bench.send(i);
    for (std::uint32_t i = 51; i < 60; ++i) bench.send(i);
    CHECK(bench.order.lost() == 20);
    CHECK(bench.order.reordered() == 20);
    CHECK(bench.order.frames() == 40);
    CHECK(bench.sink.stamps.back().counter == 59);
    CHECK(bench.sink.gaps.size() == 1);
}

TEST_CASE("A 32-bit clock of microseconds wraps every 71.6 minutes and is carried on") {
    FrameOrderOptions options;
    options.time_width = TimeWidth::bits_32;
    Bench bench(options);
    std::uint64_t true_time_us = 4'294'000'000ULL;
    for (std::uint32_t i = 0; i < 3000; ++i, true_time_us += period_us) {
        bench.send(i, static_cast<std::uint32_t>(true_time_us), 0);
    }
    CHECK(bench.sink.gaps.empty());
    REQUIRE(bench.sink.stamps.size() == 3000);
    CHECK(bench.sink.stamps.back().device_time_us == 4'294'000'000ULL + 2999 * period_us);
}

TEST_CASE("Under any mixture of loss, repetition and disorder the books balance") {
    for (unsigned seed = 0; seed < 200; ++seed) {
        std::mt19937 chance(seed);
        Bench bench;
        std::vector<std::uint32_t> sent;
        for (std::uint32_t i = 0; i < 2000; ++i) {
            if (chance() % 20 == 0) continue;
            sent.push_back(i);
            if (chance() % 30 == 0) sent.push_back(i);
        }
        for (std::size_t i = 1; i + 1 < sent.size(); ++i) {
            if (chance() % 25 == 0)
                std::swap(sent[i], sent[std::min(sent.size() - 1, i + 1 + chance() % 12)]);
        }
        for (const std::uint32_t counter : sent) bench.send(counter);
        bench.order.release(bench.sink);
        // Every packet is a frame, a duplicate or too late.
        CHECK(bench.order.frames() + bench.order.duplicated() + bench.order.reordered() == sent.size());
        // Frames come in order, once each, and frames and gaps cover the counter without overlap.
        std::uint64_t missing = 0;
        for (const Gap& gap : bench.sink.gaps) missing += gap.frames_missing;
        CHECK(missing == bench.order.lost());
        const std::uint64_t span = bench.sink.stamps.back().counter - bench.sink.stamps.front().counter + 1;
        CHECK(bench.order.frames() + bench.order.lost() == span);
        for (std::size_t i = 1; i < bench.sink.stamps.size(); ++i) {
            REQUIRE(bench.sink.stamps[i].counter > bench.sink.stamps[i - 1].counter);
        }
        bench.check_values_match_counters();
    }
}
