// The impacts of the simulated golfer, whose strikes ripple and whose practice swings do not, without a
// trigger.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "tests/bench/simulated_lesson.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/analyse_recording.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("an impact is timed by a ripple only where a ball was struck, and is where it is said to be") {
    const ScratchFolder folder;
    std::size_t told = 0;
    std::size_t by_ripple = 0;
    std::size_t within = 0;
    for (const std::uint64_t seed : {6, 7, 8, 9}) {
        EmulatedDeviceSettings settings;
        settings.seed = seed;
        settings.swings = 12;
        settings.rate_hz = 500.0;
        settings.trigger = EmulatedDeviceSettings::Trigger::absent;
        const std::string file = folder / (std::to_string(seed) + ".h5");
        REQUIRE(bench::write_simulated_lesson(file, settings, 0.0).ok());
        const Result<LessonResult> lesson = analyse_recording(file, {});
        REQUIRE(lesson.ok());
        const EmulatedDevice device(settings);
        const std::vector<TrueSwing>& truth = device.truth().swings;
        for (const Swing& swing : lesson.value().swings) {
            const Event& impact = *swing.events.impact;
            const auto off_s = [&](const TrueSwing& one) {
                return std::abs(one.script.impact_s - impact.time_s);
            };
            const auto nearest = std::ranges::min_element(truth, {}, off_s);
            ++told;
            if (off_s(*nearest) <= 2.0 * impact.u_s) ++within;
            if (impact.u_s > 0.02) continue;
            ++by_ripple;
            CHECK(nearest->script.with_ball);
        }
    }
    MESSAGE(by_ripple, " of ", told, " impacts by a ripple; within k = 2: ", within);
    CHECK(by_ripple > 0);
    CHECK(static_cast<double>(within) >= 0.9 * static_cast<double>(told));
}
