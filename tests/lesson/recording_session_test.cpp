#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <memory>
#include <thread>

#include "acquisition/device/emulated_source.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/recording_session.h"

using namespace footing;
using namespace footing::test;

namespace {

std::unique_ptr<FrameSource> golfer() {
    EmulatedDeviceSettings settings;
    settings.swings = 1;
    return std::make_unique<EmulatedSource>(settings);
}

RecordingRequest to(const std::string& out) {
    RecordingRequest request;
    request.out = out;
    request.hand = Hand::left;
    return request;
}

}  // namespace

TEST_CASE("a recording under way is watched, noted and marked from other threads, and holds all of it") {
    const ScratchFolder scratch;
    const SystemClock clock;
    auto started = RecordingSession::start(golfer(), to(scratch / "a.h5"), clock);
    REQUIRE_MESSAGE(started.ok(), (started.ok() ? "" : sentence(started.problem())));
    RecordingSession& recording = *started.value();
    std::atomic<bool> over{false};
    std::atomic<std::size_t> notes{0};
    std::thread coach([&] {
        while (!over) {
            recording.note("mark " + std::to_string(notes++));
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
    });
    std::thread screen([&] {
        while (!over) {
            CHECK(recording.progress().losses.frames <= 1'000'000);
            recording.mark_swing({1.0, 2.0});
            std::this_thread::sleep_for(std::chrono::milliseconds(3));
        }
    });
    while (recording.progress().state != SessionState::finished)
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    over = true;
    coach.join();
    screen.join();
    const auto report = recording.stop(StopReason::asked);
    REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : sentence(report.problem())));
    CHECK(!std::filesystem::exists(scratch / "a.h5.journal"));

    Result<RecordingReader> reader = RecordingReader::open(scratch / "a.h5");
    REQUIRE(reader.ok());
    const RecordingInfo& info = reader.value().info();
    CHECK(info.hand == Hand::left);
    CHECK(info.notes.size() == notes);
    CHECK(!info.swings.empty());
    CHECK(info.end.steady_ns > info.start.steady_ns);
    // Frames that the queue had no room for are counted, not forgotten.
    std::uint64_t missing = 0;
    for (const Gap& gap : info.gaps) missing += gap.frames_missing;
    CHECK(reader.value().frame_count() + missing >= 39'000);
    CHECK((info.outcome == RecordingOutcome::clean) == (missing == 0));
    CHECK(!info.zone.empty());
}

TEST_CASE("a recording never begins where one is already, or where one was not closed") {
    const ScratchFolder scratch;
    const SystemClock clock;
    SUBCASE("a file of this name") {
        write_file(scratch / "a.h5", "keep");
    }
    SUBCASE("a journal beside it") {
        write_file(scratch / "a.h5.journal", "keep");
    }
    const auto started = RecordingSession::start(golfer(), to(scratch / "a.h5"), clock);
    REQUIRE(!started.ok());
    CHECK(started.problem().kind == ProblemKind::command_line);
    const std::string kept =
        std::filesystem::exists(scratch / "a.h5") ? scratch / "a.h5" : scratch / "a.h5.journal";
    CHECK(read_file(kept) == "keep");
}

TEST_CASE("a folder that is not there is told before anything is recorded") {
    const ScratchFolder scratch;
    const SystemClock clock;
    const auto started = RecordingSession::start(golfer(), to(scratch / "none/a.h5"), clock);
    REQUIRE(!started.ok());
    CHECK(started.problem().kind == ProblemKind::disk_failed);
}

TEST_CASE("a calibration of another device is refused") {
    const ScratchFolder scratch;
    const SystemClock clock;
    Calibration other = nominal_calibration(EmulatedDevice({}).description(), 1.0);
    other.device_serial += 1;
    RecordingRequest request = to(scratch / "a.h5");
    request.calibration_json = calibration_json(other);
    const auto started = RecordingSession::start(golfer(), request, clock);
    REQUIRE(!started.ok());
    CHECK(started.problem().kind == ProblemKind::bad_input);
    CHECK(!std::filesystem::exists(scratch / "a.h5.journal"));
}
