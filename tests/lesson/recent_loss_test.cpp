#include "viewer/lesson/recent_loss.h"

#include <doctest/doctest.h>

using namespace footing;

TEST_CASE("loss is that of the last five seconds, not of the whole lesson") {
    RecentLoss recent;
    LossCounters so_far;
    std::int64_t now_ns = 0;
    double part = 0.0;
    const auto second = [&](std::uint64_t came, std::uint64_t lost) {
        for (int quarter = 0; quarter < 4; ++quarter) {
            so_far.frames += came / 4;
            so_far.lost += lost / 4;
            now_ns += 250'000'000;
            part = recent.take(now_ns, so_far);
        }
    };
    CHECK(recent.take(0, so_far) == 0.0);
    for (int at = 0; at < 10; ++at) second(960, 40);
    CHECK(part == doctest::Approx(0.04));
    for (int at = 0; at < 6; ++at) second(1000, 0);  // the cable was put in
    CHECK(part == 0.0);
    second(800, 200);
    CHECK(part == doctest::Approx(0.04));  // 200 of 5000
    // A lesson that stands still loses nothing.
    for (int at = 0; at < 10; ++at) second(0, 0);
    CHECK(part == 0.0);
}
