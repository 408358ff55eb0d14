#include <doctest/doctest.h>

#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/calibrate/zero_words.h"
#include "acquisition/device/emulated_device.h"

using namespace footing;

TEST_CASE("through a simulated lesson no zero is taken while the golfer stands on the plates (R18)") {
    for (const std::uint64_t seed : {1U, 2U, 3U}) {
        CAPTURE(seed);
        EmulatedDeviceSettings settings;
        settings.seed = seed;
        settings.swings = 4;
        settings.rate_hz = 200.0;
        settings.drift_n_per_min = 1.0;
        EmulatedDevice device(settings);
        const DeviceDescription& described = device.description();
        ZeroKeeper keeper(std::vector<double>(8, described.newtons_per_count.value()),
                          std::vector<double>(8, 0.0));
        std::vector<ZeroEvent> zeros;
        std::uint64_t first_us = 0;
        bool refused_while_on = false;
        while (const auto frame = device.next()) {
            if (first_us == 0) first_us = frame->stamp.device_time_us;
            if (auto zero = keeper.take(*frame)) zeros.push_back(*zero);
            refused_while_on = refused_while_on || keeper.refusal() == ZeroRefusal::loaded;
        }
        const EmulatedTruth& truth = device.truth();
        REQUIRE_FALSE(zeros.empty());
        CHECK(refused_while_on);
        for (const ZeroEvent& zero : zeros) {
            const double at_s = static_cast<double>(zero.device_time_us - first_us) * 1e-6;
            CAPTURE(at_s);
            const bool while_on = at_s > truth.on_from_s && at_s < truth.on_to_s;
            CHECK_FALSE(while_on);
            CHECK_FALSE(zero_note(zero, FrameKind::cells).empty());
        }
    }
}
