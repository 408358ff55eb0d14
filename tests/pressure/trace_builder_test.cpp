#include "analysis/pressure/trace_builder.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace footing;

namespace {

LoadSample sample_of(double left_n, double right_n) {
    LoadSample sample;
    sample.total_n = left_n + right_n;
    sample.left_n = left_n;
    sample.right_n = right_n;
    sample.cop = PointM{right_n / sample.total_n, 0.0};
    return sample;
}

FrameStamp stamp_of(std::uint64_t counter, double rate_hz, std::uint16_t inputs = 0) {
    return {counter, 1'000'000 + static_cast<std::uint64_t>(std::llround(counter * 1e6 / rate_hz)), 0,
            inputs};
}

}  // namespace

TEST_CASE("lost frames are bridged by a straight line and marked; later samples keep their time") {
    TraceBuilder builder(1000);
    for (std::uint64_t counter = 50; counter < 1050; ++counter) {
        if (counter >= 500 && counter < 507) continue;
        builder.add(stamp_of(counter, 1000), sample_of(counter, 2000.0 - counter));
    }
    const LoadTrace trace = std::move(builder).finish();
    REQUIRE(trace.size() == 1000);
    CHECK(trace.rate_hz == doctest::Approx(1000).epsilon(1e-9));
    int bridged = 0;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        CHECK(trace.left_n[i] == doctest::Approx(50.0 + i));  // the loads rise in a straight line
        CHECK(trace.time_s[i] == doctest::Approx(i / 1000.0));
        bridged += trace.bridged[i];
        if (trace.bridged[i]) CHECK((i >= 450 && i < 457));
    }
    CHECK(bridged == 7);
}

TEST_CASE("the rate is the device's own, whatever the nominal one and a few wrong stamps say") {
    TraceBuilder builder(1000);
    for (std::uint64_t counter = 0; counter < 5000; ++counter) {
        FrameStamp stamp = stamp_of(counter, 998.7);
        if (counter % 700 == 3) stamp.device_time_us += 90'000;
        builder.add(stamp, sample_of(300, 300));
    }
    CHECK(std::move(builder).finish().rate_hz == doctest::Approx(998.7).epsilon(1e-6));
    TraceBuilder timeless(250);
    for (std::uint64_t counter = 0; counter < 50; ++counter)
        timeless.add({counter, 0, 0, 0}, sample_of(1, 1));
    CHECK(std::move(timeless).finish().rate_hz == 250);
    CHECK(TraceBuilder(100).finish().size() == 0);
}

TEST_CASE("the trigger is kept, and never invented in a bridge") {
    TraceBuilder builder(100);
    builder.add(stamp_of(1, 100, trigger_bit), sample_of(300, 300));
    builder.add(stamp_of(5, 100, trigger_bit), sample_of(300, 300));
    const LoadTrace trace = std::move(builder).finish();
    REQUIRE(trace.size() == 5);
    CHECK(trace.trigger[0] == 1);
    CHECK(trace.trigger[2] == 0);
    CHECK(trace.bridged[2] == 1);
    CHECK(trace.trigger[4] == 1);
}

TEST_CASE("an absurd jump of the counter costs an hour at most, and going backwards nothing") {
    TraceBuilder builder(10);
    builder.add(stamp_of(1, 10), sample_of(300, 300));
    builder.add({4'000'000'000'000ULL, 2'000'000, 0, 0}, sample_of(300, 300));
    builder.add({7, 2'100'000, 0, 0}, sample_of(100, 300));
    const LoadTrace trace = std::move(builder).finish();
    CHECK(trace.size() == 3 + 36'000);
    CHECK(trace.left_n.back() == 100);
}

TEST_CASE("what is not known on either side of a gap is not known in it") {
    TraceBuilder builder(100);
    LoadSample nobody;
    builder.add(stamp_of(0, 100), nobody);
    builder.add(stamp_of(2, 100), sample_of(350, 350));
    const LoadTrace trace = std::move(builder).finish();
    CHECK_FALSE(known(trace.cop_x_m[1]));
    CHECK_FALSE(known(trace.left_n[1]));
    CHECK(trace.total_n[1] == doctest::Approx(350));
}

TEST_CASE("stamps that wander about the nominal rate leave the rate from the first to the last") {
    // A table with uneven times: its rate is known as (n - 1) / (last - first).
    for (const unsigned seed : {1U, 2U, 3U}) {
        std::mt19937_64 chance(seed);
        std::uniform_real_distribution<double> step_us(6000.0, 14000.0);
        std::vector<std::uint64_t> times_us{0};
        while (times_us.size() < 3000)
            times_us.push_back(times_us.back() + static_cast<std::uint64_t>(step_us(chance)));
        const double rate_hz = 2999.0 / (1e-6 * static_cast<double>(times_us.back()));
        TraceBuilder builder(rate_hz);
        for (std::size_t i = 0; i < times_us.size(); ++i)
            builder.add({i, times_us[i], 0, 0}, sample_of(300, 300));
        CHECK(std::move(builder).finish().rate_hz == doctest::Approx(rate_hz).epsilon(1e-9));
    }
}
