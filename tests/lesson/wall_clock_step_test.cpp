#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <memory>
#include <thread>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_line.h"
#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/frame/units.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/recording_session.h"
#include "viewer/lesson/wall_time.h"

using namespace footing;
using namespace footing::test;

namespace {

/// The computer's clocks, of which somebody sets the wall clock.
class SteppedClock final : public Clock {
  public:
    [[nodiscard]] std::int64_t steady_ns() const override { return real_.steady_ns(); }
    [[nodiscard]] std::int64_t utc_ns() const override { return real_.utc_ns() + step_ns_; }
    void step_ns(std::int64_t by) { step_ns_ += by; }

  private:
    SystemClock real_;
    std::atomic<std::int64_t> step_ns_{0};
};

}  // namespace

// R6
TEST_CASE(
    "the wall clock is set an hour on, or back, while recording: no sample moves, and the file tells of it") {
    std::int64_t step_ns = 0;
    SUBCASE("on") {
        step_ns = 3600 * ns_per_s;
    }
    SUBCASE("back") {
        step_ns = -3600 * ns_per_s;
    }
    const ScratchFolder scratch;
    SteppedClock clock;
    const std::string port = std::to_string(free_udp_port());
    UdpLinkOptions udp;
    udp.bind = parse_host_port("127.0.0.1:" + port).value();
    std::atomic<bool> stop{false};
    std::thread device_thread([&] {
        EmulatedDeviceSettings settings;
        settings.swings = 0;
        EmulatedDevice device(settings);
        auto line = open_udp_line("127.0.0.1:" + port);
        REQUIRE(line.ok());
        CHECK(transmit(device, *line.value(), {}, stop).ok());
    });
    RecordingRequest request;
    request.out = scratch / "a.h5";
    auto started = RecordingSession::start(
        std::make_unique<LiveSource>(std::make_unique<UdpLink>(udp, clock), LiveSourceOptions{}, clock),
        request, clock);
    if (started.ok()) {
        RecordingSession& recording = *started.value();
        const auto wait_for = [&](double seconds) {
            while (recording.progress().duration_s < seconds)
                std::this_thread::sleep_for(std::chrono::milliseconds(5));
        };
        wait_for(0.5);
        clock.step_ns(step_ns);
        wait_for(1.0);
        CHECK(recording.stop(StopReason::asked).ok());
    }
    stop = true;
    device_thread.join();
    REQUIRE_MESSAGE(started.ok(), (started.ok() ? "" : sentence(started.problem())));

    Result<RecordingReader> reader = RecordingReader::open(scratch / "a.h5");
    REQUIRE(reader.ok());
    const RecordingInfo& info = reader.value().info();
    const std::int64_t steady_ns = info.end.steady_ns - info.start.steady_ns;
    CHECK(steady_ns < 600 * ns_per_s);
    // Both pairs of clocks together show the step.
    CHECK(std::abs(info.end.utc_ns - info.start.utc_ns - steady_ns - step_ns) < ns_per_s);
    const Result<FrameBlock> frames = reader.value().read(0, 100'000);
    REQUIRE(frames.ok());
    REQUIRE(frames.value().size() > 500);
    for (std::size_t i = 1; i < frames.value().size(); ++i) {
        const FrameStamp& before = frames.value().stamps[i - 1];
        const FrameStamp& now = frames.value().stamps[i];
        REQUIRE(now.device_time_us - before.device_time_us == 1000 * (now.counter - before.counter));
        REQUIRE(now.host_time_ns >= before.host_time_ns);
        REQUIRE(now.host_time_ns <= info.end.steady_ns);
    }
    CHECK(info.clock.slope == doctest::Approx(1.0).epsilon(0.2));
    REQUIRE(!info.clock.knots.empty());
    CHECK(info.clock.knots.back().host_time_ns - info.clock.knots.front().host_time_ns < 600 * ns_per_s);
}

// Directive 2000/84/EC: summer time begins at 1 h UTC on the last Sunday in March and ends so in October.
TEST_CASE("across a change to summer time the wall time of two moments jumps, the moments do not") {
    const std::int64_t spring_ns = 1'774'746'000 * ns_per_s;  // 2026-03-29T01:00:00Z
    const std::int64_t autumn_ns = 1'792'890'000 * ns_per_s;  // 2026-10-25T01:00:00Z
    const auto at = [](std::int64_t utc_ns) { return wall_time(utc_ns, "Europe/Berlin"); };
    CHECK(at(spring_ns - ns_per_s) == "2026-03-29 01:59:59 +0100 (Europe/Berlin)");
    CHECK(at(spring_ns) == "2026-03-29 03:00:00 +0200 (Europe/Berlin)");
    CHECK(at(autumn_ns - ns_per_s) == "2026-10-25 02:59:59 +0200 (Europe/Berlin)");
    CHECK(at(autumn_ns) == "2026-10-25 02:00:00 +0100 (Europe/Berlin)");
}
