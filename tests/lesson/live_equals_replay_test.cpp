#include <doctest/doctest.h>

#include <bit>
#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_source.h"
#include "analysis/swing/analyse_swings.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/load_collector.h"
#include "viewer/lesson/read_loads.h"

using namespace footing;
using namespace footing::test;

namespace {

LoadTrace trace_of_simulated_frames(const EmulatedDeviceSettings& settings) {
    EmulatedSource source(settings);
    const auto device = source.open(std::chrono::milliseconds(0));
    REQUIRE(device.ok());
    LoadCollector collector(device.value(), nominal_calibration(device.value(), 1.0), FrameUnits::counts);
    while (true) {
        const auto state = source.poll(collector, std::chrono::milliseconds(0));
        REQUIRE(state.ok());
        if (state.value() == SourceState::finished) break;
    }
    return std::move(collector).finish();
}

bool same_bits(const std::vector<double>& a, const std::vector<double>& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (std::bit_cast<std::uint64_t>(a[i]) != std::bit_cast<std::uint64_t>(b[i])) return false;
    }
    return true;
}

void check_same(const LoadTrace& a, const LoadTrace& b) {
    CHECK(std::bit_cast<std::uint64_t>(a.rate_hz) == std::bit_cast<std::uint64_t>(b.rate_hz));
    CHECK(same_bits(a.time_s, b.time_s));
    CHECK(same_bits(a.total_n, b.total_n));
    CHECK(same_bits(a.left_n, b.left_n));
    CHECK(same_bits(a.right_n, b.right_n));
    CHECK(same_bits(a.cop_x_m, b.cop_x_m));
    CHECK(same_bits(a.cop_y_m, b.cop_y_m));
    CHECK(same_bits(a.left_x_m, b.left_x_m));
    CHECK(same_bits(a.right_y_m, b.right_y_m));
    CHECK(a.trigger == b.trigger);
    CHECK(a.bridged == b.bridged);
}

void record_over_udp(const std::string& file, const std::vector<std::string>& emulate_words) {
    const std::string address = "127.0.0.1:" + std::to_string(free_udp_port());
    ChildProcess recorder({FOOTING_PROGRAM, "record", "--udp", address, "--idle", "2", "--out", file});
    std::vector<std::string> words{FOOTING_PROGRAM, "emulate", "--udp", address, "--fast"};
    words.insert(words.end(), emulate_words.begin(), emulate_words.end());
    const auto emulated = run_program(words);
    REQUIRE_MESSAGE(emulated.exit_code == 0, emulated.err);
    REQUIRE(recorder.wait() == 0);
}

}  // namespace

TEST_CASE("simulate, record over UDP, replay, analyse gives bit for bit what the simulated frames give") {
    const ScratchFolder scratch;
    EmulatedDeviceSettings settings;
    settings.seed = 5;
    settings.swings = 3;

    SUBCASE("two plates") {
        record_over_udp(scratch / "lesson.h5",
                        {"--plates", "--rate", "1000", "--swings", "3", "--seed", "5"});
    }
    SUBCASE("a mat") {
        settings.kind = FrameKind::grid;
        settings.rate_hz = 100.0;
        record_over_udp(scratch / "lesson.h5",
                        {"--mat", "48x48", "--rate", "100", "--swings", "3", "--seed", "5"});
    }

    const LoadTrace simulated = trace_of_simulated_frames(settings);
    const auto replayed = read_loads(scratch / "lesson.h5");
    REQUIRE_MESSAGE(replayed.ok(), sentence(replayed.problem()));
    REQUIRE(replayed.value().facts.losses.lost == 0);
    check_same(simulated, replayed.value().trace);

    const auto live = analyse_swings(simulated, Hand::right, {});
    const auto later = analyse_swings(replayed.value().trace, Hand::right, {});
    REQUIRE(live.size() == later.size());
    CHECK(live.size() >= 3);
    for (std::size_t i = 0; i < live.size(); ++i) {
        for (const NamedEvent& event : named_events) {
            const auto& a = live[i].events.*event.member;
            const auto& b = later[i].events.*event.member;
            REQUIRE(a.has_value() == b.has_value());
            if (a) CHECK(std::bit_cast<std::uint64_t>(a->time_s) == std::bit_cast<std::uint64_t>(b->time_s));
        }
        for (const NamedShare& share : named_shares) {
            const auto& a = live[i].lead_share.*share.member;
            const auto& b = later[i].lead_share.*share.member;
            REQUIRE(a.has_value() == b.has_value());
            if (a) CHECK(std::bit_cast<std::uint64_t>(a->value) == std::bit_cast<std::uint64_t>(b->value));
        }
    }
}
