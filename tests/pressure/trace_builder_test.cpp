#include "analysis/pressure/trace_builder.h"

#include <doctest/doctest.h>

#include "analysis/pressure/load_reducer.h"

#include <algorithm>
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

TEST_CASE("the time that a device was away is bridged, and one wrong stamp is not taken for that") {
    enum class What { seen_by_the_host, told, wrong_stamp };
    for (const What what : {What::seen_by_the_host, What::told, What::wrong_stamp}) {
        const bool restarts = what != What::wrong_stamp;
        CAPTURE(static_cast<int>(what));
        TraceBuilder builder(500);
        if (what == What::told) builder.know_restart(1999);
        for (std::uint64_t counter = 0; counter < 5000; ++counter) {
            FrameStamp stamp = stamp_of(counter, 500);
            if (what != What::told)
                stamp.host_time_ns = static_cast<std::int64_t>(stamp.device_time_us) * 1000 + 400'000;
            if (restarts && counter >= 2000) {  // five seconds, by both clocks; the counter goes on
                stamp.device_time_us += 5'000'000;
                if (what != What::told) stamp.host_time_ns += 5'000'000'000;
            }
            if (!restarts && counter == 2000) stamp.device_time_us += 5'000'000;
            builder.add(stamp, sample_of(400, 300));
        }
        const LoadTrace trace = std::move(builder).finish();
        CHECK(trace.rate_hz == doctest::Approx(500).epsilon(1e-6));
        CHECK(trace.size() == (restarts ? 7500 : 5000));
        CHECK(std::ranges::count(trace.bridged, 1) == (restarts ? 2500 : 0));
        if (restarts)
            CHECK((trace.bridged[1999] == 0 && trace.bridged[2000] == 1 && trace.bridged[4500] == 0));
    }
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

TEST_CASE("frames in rows give the same trace as one by one, gaps, triggers and all") {
    std::mt19937_64 chance(5);
    for (const bool whole : {false, true}) {
        PlateLayout layout;
        layout.plates = {{"left", {-0.2, 0.0}, {{-0.1, 0.1}, {0.1, 0.1}, {-0.1, -0.1}, {0.1, -0.1}}},
                         {"right", {0.2, 0.0}, {{-0.1, 0.1}, {0.1, 0.1}, {-0.1, -0.1}, {0.1, -0.1}}}};
        if (whole) layout.plates.resize(1);
        if (whole) layout.plates[0].name = "plate";
        const std::size_t values = values_per_frame(layout);
        std::normal_distribution<double> load_n(60.0, 60.0);
        std::vector<FrameStamp> stamps;
        std::vector<double> forces_n;
        std::uint64_t counter = 7;
        for (int i = 0; i < 3000; ++i) {
            counter += chance() % 50 == 0 ? 1 + chance() % 5 : 1;
            if (chance() % 400 == 0) counter -= 3;
            stamps.push_back({counter, counter * 1000, 0, static_cast<std::uint16_t>(chance() % 60 == 0)});
            // Off the plates for a while: below the load floor.
            for (std::size_t k = 0; k < values; ++k)
                forces_n.push_back(i > 1000 && i < 1500 ? 0.1 * load_n(chance) : load_n(chance));
        }
        LoadReducer reducer(layout);
        TraceBuilder one_by_one(1000.0);
        for (std::size_t i = 0; i < stamps.size(); ++i)
            one_by_one.add(stamps[i], reducer.reduce(std::span(forces_n).subspan(i * values, values)));
        TraceBuilder in_rows(1000.0);
        for (std::size_t first = 0; first < stamps.size(); first += 700) {
            const std::size_t count = std::min<std::size_t>(700, stamps.size() - first);
            LoadColumns rows;
            rows.resize(count);
            const auto part = std::span(forces_n).subspan(first * values, count * values);
            reducer.reduce_rows(part.first(300 * values < part.size() ? 300 * values : 0), 0, rows);
            reducer.reduce_rows(part.subspan(300 * values < part.size() ? 300 * values : 0),
                                300 * values < part.size() ? 300 : 0, rows);
            in_rows.add(std::span(stamps).subspan(first, count), rows);
        }
        const LoadTrace a = std::move(one_by_one).finish();
        const LoadTrace b = std::move(in_rows).finish();
        REQUIRE(a.size() == b.size());
        CHECK(a.rate_hz == b.rate_hz);
        CHECK(a.trigger == b.trigger);
        CHECK(a.bridged == b.bridged);
        using Column = std::vector<double> LoadTrace::*;
        for (const Column column : {&LoadTrace::total_n, &LoadTrace::left_n, &LoadTrace::right_n,
                                    &LoadTrace::cop_x_m, &LoadTrace::cop_y_m, &LoadTrace::left_x_m,
                                    &LoadTrace::left_y_m, &LoadTrace::right_x_m, &LoadTrace::right_y_m}) {
            std::size_t different = 0;
            std::size_t not_known = 0;
            for (std::size_t i = 0; i < a.size(); ++i) {
                const double x = (a.*column)[i];
                const double y = (b.*column)[i];
                if (!known(x)) ++not_known;
                if (!(x == y || (!known(x) && !known(y)))) ++different;
            }
            CHECK(different == 0);
            CHECK(not_known < a.size() + (whole ? 1 : 0));
        }
    }
}
