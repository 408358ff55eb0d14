#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <memory>
#include <thread>

#include "acquisition/device/emulated_source.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/serial_link.h"
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
    request.calibrations = {calibration_json(other)};
    const auto started = RecordingSession::start(golfer(), request, clock);
    REQUIRE(!started.ok());
    CHECK(started.problem().kind == ProblemKind::bad_input);
    CHECK(!std::filesystem::exists(scratch / "a.h5.journal"));
}

namespace {

EmulatedDeviceSettings plate(EmulatedDeviceSettings::Part part) {
    EmulatedDeviceSettings settings;
    settings.swings = 0;
    settings.rate_hz = 100.0;
    settings.part = part;
    return settings;
}

std::vector<std::unique_ptr<FrameSource>> two_plates() {
    std::vector<std::unique_ptr<FrameSource>> sources;
    sources.push_back(std::make_unique<EmulatedSource>(plate(EmulatedDeviceSettings::Part::left_plate)));
    sources.push_back(std::make_unique<EmulatedSource>(plate(EmulatedDeviceSettings::Part::right_plate)));
    return sources;
}

std::string record_of(std::uint32_t serial, double gain) {
    Calibration record;
    record.device_serial = serial;
    record.method = "known masses on each cell";
    record.made = "2026-01-02";
    record.newtons_per_count.assign(4, gain);
    record.zero_counts.assign(4, 0.0);
    record.relative_u = 0.001;
    return calibration_json(record);
}

}  // namespace

TEST_CASE("two plates with clocks of their own are recorded as one, each with its own calibration") {
    const ScratchFolder scratch;
    const SystemClock clock;
    RecordingRequest request = to(scratch / "a.h5");
    request.calibrations = {record_of(1'100'001, 0.0003), record_of(100'001, 0.0002)};
    auto started = RecordingSession::start(two_plates(), request, clock);
    REQUIRE_MESSAGE(started.ok(), (started.ok() ? "" : sentence(started.problem())));
    RecordingSession& recording = *started.value();
    CHECK(recording.device_names() ==
          "simulated golfer, left plate (serial number 100001) and simulated golfer, right plate (serial "
          "number "
          "1100001)");
    CHECK(recording.calibration().newtons_per_count ==
          std::vector<double>{0.0002, 0.0002, 0.0002, 0.0002, 0.0003, 0.0003, 0.0003, 0.0003});
    CHECK(recording.progress().devices.size() == 2);
    std::this_thread::sleep_for(std::chrono::milliseconds(200));
    const auto report = recording.stop(StopReason::asked);
    REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : sentence(report.problem())));
    Result<RecordingReader> reader = RecordingReader::open(scratch / "a.h5");
    REQUIRE(reader.ok());
    const RecordingInfo& info = reader.value().info();
    REQUIRE(info.devices.size() == 2);
    CHECK(info.devices[0].calibration_json == request.calibrations[1]);
    CHECK(info.devices[1].calibration_json == request.calibrations[0]);
    const auto joined = parse_calibration(info.calibration_json, "test");
    REQUIRE(joined.ok());
    CHECK(check_calibration(joined.value(), info.device, "test").ok());
}

TEST_CASE("of several devices one that cannot be opened ends the waiting for the others, and is told") {
    /// A line on which nobody ever sends.
    class Silent final : public FrameSource {
      public:
        Result<DeviceDescription> open(std::chrono::milliseconds wait) override {
            std::this_thread::sleep_for(wait);
            return Problem{ProblemKind::device_failed, "the quiet line", "nothing was heard", "switch it on"};
        }
        Result<SourceState> poll(FrameSink&, std::chrono::milliseconds) override {
            return SourceState::waiting;
        }
        [[nodiscard]] LossCounters losses() const override { return {}; }
        [[nodiscard]] std::string name() const override { return "the quiet line"; }
    };
    const ScratchFolder scratch;
    const SystemClock clock;
    for (const bool silent_first : {true, false}) {
        std::vector<std::unique_ptr<FrameSource>> sources;
        sources.push_back(std::make_unique<Silent>());
        sources.push_back(std::make_unique<LiveSource>(
            std::make_unique<SerialLink>(SerialPort{scratch / "no_such_port"}, clock), LiveSourceOptions{},
            clock));
        if (!silent_first) std::swap(sources[0], sources[1]);
        RecordingRequest request = to(scratch / "a.h5");
        request.patience = std::chrono::hours(24 * 365);  // the test would never end
        const auto started = RecordingSession::start(std::move(sources), request, clock);
        REQUIRE(!started.ok());
        CHECK(started.problem().kind == ProblemKind::device_failed);
        CHECK(sentence(started.problem()).find("no_such_port") != std::string::npos);
        CHECK_FALSE(std::filesystem::exists(scratch / "a.h5.journal"));
    }
}

TEST_CASE("a calibration of none of several plates, and two of one, are refused") {
    const ScratchFolder scratch;
    const SystemClock clock;
    RecordingRequest request = to(scratch / "a.h5");
    request.calibrations = {record_of(5, 0.0002)};
    const auto stranger = RecordingSession::start(two_plates(), request, clock);
    REQUIRE(!stranger.ok());
    CHECK(sentence(stranger.problem())
              .find("belongs to device 5, but the plates are devices 100001 and 1100001") !=
          std::string::npos);
    request.calibrations = {record_of(100'001, 0.0002), record_of(100'001, 0.0003)};
    const auto twice = RecordingSession::start(two_plates(), request, clock);
    REQUIRE(!twice.ok());
    CHECK(sentence(twice.problem()).find("there are two for device 100001") != std::string::npos);
    CHECK(!std::filesystem::exists(scratch / "a.h5.journal"));
}
