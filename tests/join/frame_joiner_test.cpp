// Joined frames against what is true by construction: each value is the true time of its sampling instant,
// so that what is read off between two frames tells how far frames that belong together are apart.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/join/frame_joiner.h"
#include "acquisition/join/live_joiner.h"

using namespace footing;

namespace {

constexpr std::int64_t ns_per_ms = 1'000'000;

/// Keeps joined frames of one value a device.
struct Kept final : FrameSink {
    std::vector<FrameStamp> stamps;
    std::vector<std::vector<std::int32_t>> values;
    std::vector<Gap> gaps;
    void take_frame(const FrameView& frame) override {
        stamps.push_back(frame.stamp);
        const auto counts = std::get<std::span<const std::int32_t>>(frame.values);
        values.emplace_back(counts.begin(), counts.end());
    }
    void take_gap(const Gap& gap) override { gaps.push_back(gap); }
    [[nodiscard]] bool has(std::uint64_t counter) const {
        return std::any_of(stamps.begin(), stamps.end(),
                           [&](const FrameStamp& stamp) { return stamp.counter == counter; });
    }
};

void give(FrameJoiner& joiner, std::size_t device, std::uint64_t counter, double host_ms, std::int32_t value,
          FrameSink& sink, std::uint16_t inputs = 0) {
    const FrameStamp stamp{counter, counter * 1000, 0, inputs};
    joiner.take_frame(device, {stamp, std::span<const std::int32_t>(&value, 1)},
                      std::llround(host_ms * ns_per_ms), sink);
}

}  // namespace

TEST_CASE("between two neighbours the line is read, at the instants of the first device") {
    FrameJoiner joiner({1, 1}, 100);
    Kept kept;
    for (int i = 0; i < 5; ++i) {
        give(joiner, 0, 10 + i, i, 100 * i, kept);
        give(joiner, 1, 70 + i, i + 0.25, 1000 * i, kept);
    }
    joiner.finish(kept);
    REQUIRE(kept.stamps.size() == 4);  // the first instant lies before the second device's first frame
    CHECK(kept.stamps[0].counter == 11);
    CHECK(kept.values[0] == std::vector<std::int32_t>{100, 750});
    CHECK(kept.values[3] == std::vector<std::int32_t>{400, 3750});
    CHECK(joiner.left_out() == 1);
}

TEST_CASE("over a gap of another device nothing is invented, and the first device's own gaps stay gaps") {
    FrameJoiner joiner({1, 1}, 100);
    Kept kept;
    for (int i = 0; i < 20; ++i) {
        if (i != 15) give(joiner, 0, i, i, i, kept);
        if (i < 5 || i > 8) give(joiner, 1, i, i - 0.5, i, kept);
    }
    joiner.finish(kept);
    for (std::uint64_t counter = 0; counter < 19; ++counter) {
        CAPTURE(counter);
        CHECK(kept.has(counter) == ((counter < 4 || counter > 8) && counter != 15));
    }
}

TEST_CASE("over a restart nothing is invented, though the counters go on") {
    FrameJoiner joiner({1, 1}, 100);
    Kept kept;
    for (int i = 0; i < 10; ++i) {
        if (i == 6) joiner.take_gap(1, {5, 0, 5000, 6000});
        give(joiner, 0, i, i, i, kept);
        give(joiner, 1, i, i - 0.5, i, kept);
    }
    joiner.finish(kept);
    CHECK(kept.has(4));
    CHECK(!kept.has(5));
    CHECK(kept.has(6));
    CHECK(kept.gaps.empty());
    joiner.take_gap(0, {9, 0, 9000, 9500});
    give(joiner, 0, 10, 10, 0, kept);
    give(joiner, 1, 10, 9.5, 0, kept);
    give(joiner, 1, 11, 10.5, 0, kept);
    CHECK(kept.gaps == std::vector<Gap>{{9, 0, 9000, 9500}});
}

TEST_CASE("a trigger on another device is never missed and never early") {
    FrameJoiner joiner({1, 1}, 100);
    Kept kept;
    // Four frames of the second device to one of the first; the trigger is set in one of them only.
    for (int i = 0; i < 40; ++i) {
        if (i % 4 == 0) give(joiner, 0, i / 4, i / 4, 0, kept);
        give(joiner, 1, i, i / 4.0, 0, kept, i == 18 ? trigger_bit : 0);
    }
    joiner.finish(kept);
    REQUIRE(kept.stamps.size() == 10);
    for (const FrameStamp& stamp : kept.stamps) CHECK((stamp.inputs == trigger_bit) == (stamp.counter == 5));
}

TEST_CASE("a device that is away does not hold up memory, nor anything for ever") {
    FrameJoiner joiner({1, 1}, 50);
    Kept kept;
    give(joiner, 1, 0, 0.5, 0, kept);
    for (int i = 0; i < 1000; ++i) give(joiner, 0, i, i, i, kept);
    CHECK(joiner.left_out() >= 949);
    for (int i = 1000; i < 1100; ++i) {
        give(joiner, 0, i, i, i, kept);
        give(joiner, 1, i, i + 0.5, i, kept);
    }
    CHECK(kept.stamps.size() == 99);
    CHECK(kept.stamps.front().counter == 1001);
}

namespace {

struct Clocks {
    double ppm = 0.0;
    std::uint64_t first_us = 0;
    std::vector<std::pair<std::uint64_t, std::int64_t>> arrivals;  ///< device time in us, host time in ns
    ClockLine line;
};

/// A device of 1 kHz by its own clock for `seconds`, whose frames the line holds back by an exponential time
/// of `delay_ms` on average; none overtakes another.
Clocks device(double ppm, std::uint64_t first_us, double seconds, double delay_ms, std::uint64_t seed) {
    Clocks clocks{ppm, first_us, {}, {}};
    std::mt19937_64 chance(seed);
    std::exponential_distribution<double> late(1.0 / delay_ms);
    ClockFitter fitter;
    double before_ms = 0.0;
    for (int i = 0; i < seconds * 1000; ++i) {
        const double true_ms = i / (1.0 + ppm * 1e-6);
        before_ms = std::max(before_ms, true_ms + late(chance));
        clocks.arrivals.emplace_back(first_us + 1000ULL * i, 500'000'000'000 + std::llround(before_ms * 1e6));
        fitter.take(clocks.arrivals.back().first, clocks.arrivals.back().second);
    }
    clocks.line = fitter.line();
    return clocks;
}

/// Frames of equally many instants, one of each device in turn; the value is the true time in us.
template <typename Take>
void in_turn(const std::vector<const Clocks*>& devices, Take take) {
    for (std::size_t i = 0; i < devices.front()->arrivals.size(); ++i) {
        for (std::size_t number = 0; number < devices.size(); ++number) {
            const Clocks& clocks = *devices[number];
            const auto true_us =
                static_cast<std::int32_t>(std::lround(i * 1000.0 / (1.0 + clocks.ppm * 1e-6)));
            const FrameStamp stamp{i, clocks.arrivals[i].first, clocks.arrivals[i].second, 0};
            take(number, clocks, FrameView{stamp, std::span<const std::int32_t>(&true_us, 1)});
        }
    }
}

}  // namespace

TEST_CASE("clocks of +80 and -60 ppm and 5 ms of delay leave joined frames within 1 ms RMS") {
    const Clocks left = device(80.0, 5'000'000, 120.0, 5.0, 1);
    const Clocks right = device(-60.0, 22'000'000, 120.0, 5.0, 2);
    FrameJoiner joiner({1, 1}, 65'536);
    Kept kept;
    in_turn({&left, &right}, [&](std::size_t number, const Clocks& clocks, const FrameView& frame) {
        joiner.take_frame(number, frame, clocks.line.host_time_ns(frame.stamp.device_time_us), kept);
    });
    joiner.finish(kept);
    REQUIRE(kept.stamps.size() > 119'000);
    double squares_ms = 0.0;
    double most_ms = 0.0;
    for (const auto& values : kept.values) {
        const double apart_ms = (values[1] - values[0]) * 1e-3;
        squares_ms += apart_ms * apart_ms;
        most_ms = std::max(most_ms, std::abs(apart_ms));
    }
    const double rms_ms = std::sqrt(squares_ms / static_cast<double>(kept.values.size()));
    MESSAGE("joined frames: " << rms_ms << " ms RMS apart, " << most_ms << " ms at most");
    CHECK(rms_ms < 1.0);
    CHECK(most_ms < 3.0);
}

TEST_CASE("joined as they come, frames are within 3 ms after two seconds") {
    const Clocks left = device(80.0, 5'000'000, 30.0, 5.0, 3);
    const Clocks right = device(-60.0, 22'000'000, 30.0, 5.0, 4);
    std::vector<DeviceDescription> devices(2);
    for (DeviceDescription& one : devices) one.layout.plates = {{"", {}, {{0.0, 0.0}}}};
    LiveJoiner joiner(devices);
    Kept kept;
    in_turn({&left, &right}, [&](std::size_t number, const Clocks&, const FrameView& frame) {
        joiner.take_frame(number, frame, kept);
    });
    CHECK(kept.stamps.size() > 29'000);
    double most_ms = 0.0;
    for (const auto& values : kept.values) {
        if (values[0] > 2'000'000) most_ms = std::max(most_ms, std::abs(values[1] - values[0]) * 1e-3);
    }
    MESSAGE("joined live: " << most_ms << " ms apart at most");
    CHECK(most_ms < 3.0);
}
