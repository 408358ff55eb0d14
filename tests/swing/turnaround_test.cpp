// When the share is lowest, on curves whose lowest point is known by construction.
#include "analysis/swing/turnaround.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>

#include "tests/support/minimum_jerk.h"

using namespace footing;

namespace {

constexpr double rate_hz = 500.0;

/// 75 % at first, less by `fall` at 1.5 s, slowly back by `regained` until 1.9 s, quickly to 92 % from 1.85
/// to 2.15 s.
SwingMotion motion_with(double fall, double regained) {
    SwingMotion motion;
    motion.rate_hz = rate_hz;
    motion.address_load_n = 800.0;
    motion.share_noise = 0.0003;
    motion.smoothing_hz = 12.0;
    for (std::size_t i = 0; i < 1500; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        motion.smooth_share.push_back(0.75 - fall * testing::minimum_jerk(t, 0.8, 1.5) +
                                      regained * testing::minimum_jerk(t, 1.5, 1.9) +
                                      (0.17 + fall - regained) * testing::minimum_jerk(t, 1.85, 2.15));
    }
    motion.share = motion.smooth_share;
    motion.smooth_load.assign(motion.share.size(), 1.0);
    return motion;
}

double found_s(double fall, double regained, double expected_s) {
    const SwingMotion motion = motion_with(fall, regained);
    return find_turnaround(motion, motion.entry(0.8), motion.entry(2.1), expected_s).time_s;
}

}  // namespace

TEST_CASE("who regains slowly at first turns where the share is lowest, not where it comes back quickly") {
    for (const double fall : {0.06, 0.04, 0.02}) {
        for (const double regained : {0.018, 0.012, 0.008, 0.005}) {
            CAPTURE(fall);
            CAPTURE(regained);
            // Expected where the quick part begins.
            CHECK(std::abs(found_s(fall, regained, 1.85) - 1.5) < 0.04);
        }
    }
}
