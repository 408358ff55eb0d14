// A lesson in the window's way (LessonRun) on two plates that are devices of their own, over real sockets.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <memory>
#include <vector>

#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"
#include "viewer/lesson/lesson_run.h"

using namespace footing;
using namespace footing::test;

namespace {

LessonPlan plan_on(const std::array<int, 2>& ports, const std::string& out, const Clock& clock) {
    LessonPlan plan;
    plan.out = out;
    plan.make_sources = [ports, &clock]() -> Result<std::vector<std::unique_ptr<FrameSource>>> {
        std::vector<std::unique_ptr<FrameSource>> sources;
        for (const int port : ports) {
            const auto bind = parse_host_port(here(port));
            if (!bind) return bind.problem();
            UdpLinkOptions udp;
            udp.bind = bind.value();
            sources.push_back(std::make_unique<LiveSource>(std::make_unique<UdpLink>(udp, clock),
                                                           LiveSourceOptions{}, clock));
        }
        return sources;
    };
    return plan;
}

}  // namespace

TEST_CASE("a lesson waits for both of two plates, shows their common share, and tells when one goes silent") {
    const ScratchFolder scratch;
    const SystemClock clock;
    const std::array<int, 2> ports{free_udp_port(), free_udp_port()};
    const std::string file = scratch / "a.h5";
    {
        LessonRun run(plan_on(ports, file, clock), clock, nullptr);
        wait_until([&] { return !run.view()->hint.empty(); });
        CHECK(run.view()->stage == LessonStage::looking_for_plates);
        {
            const ChildProcess plates({FOOTING_PROGRAM, "emulate", "--udp", here(ports[0]), "--udp",
                                       here(ports[1]), "--swings", "3", "--rate", "250"});
            wait_until([&] { return run.view()->stage == LessonStage::running; });
            wait_until([&] { return run.view()->set_up.share.has_value(); });
            const auto view = run.view();
            CHECK(view->progress.devices.size() == 2);
            CHECK(view->device.find(" and ") != std::string::npos);
            CHECK(view->source.find(" and ") != std::string::npos);
        }
        wait_until([&] { return run.view()->progress.is_partly_silent(); });
        wait_until([&] { return run.view()->set_up.stance == Stance::nobody; });
        run.ask_to_stop();
        wait_until([&] { return run.is_over(); });
        CHECK(run.view()->stage == LessonStage::closed);
    }
    const auto reader = RecordingReader::open(file);
    REQUIRE(reader.ok());
    CHECK(reader.value().info().devices.size() == 2);
}
