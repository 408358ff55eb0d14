#include <doctest/doctest.h>
#include <signal.h>
#include <sys/mount.h>

#include <cstdlib>
#include <functional>
#include <string>

#include "acquisition/record/recording_reader.h"
#include "tests/field/sending_plates.h"
#include "tests/support/child_process.h"
#include "tests/support/recording_notes.h"
#include "tests/support/wait_until.h"

// What happens to `footing record` on a practice ground: the program itself, as a child process, on real
// sockets.

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

/// `footing record` on a port of its own.
struct Recorder {
    explicit Recorder(std::vector<std::string> more = {}, std::vector<std::string> settings = {})
        : port(free_udp_port()) {
        std::vector<std::string> words = std::move(settings);
        words.insert(words.end(), {FOOTING_PROGRAM, "record", "--udp", here(port), "--out", file()});
        words.insert(words.end(), more.begin(), more.end());
        program = std::make_unique<ChildProcess>(words, scratch / "out", scratch / "err");
    }
    [[nodiscard]] std::string file() const { return scratch / "a.h5"; }
    [[nodiscard]] std::string said() const { return read_file(scratch / "err"); }
    [[nodiscard]] bool has_said(const std::string& words) const {
        return said().find(words) != std::string::npos;
    }
    int stop() const {
        program->send_signal(SIGINT);
        return program->wait();
    }
    [[nodiscard]] RecordingReader reader() const {
        auto opened = RecordingReader::open(file());
        REQUIRE_MESSAGE(opened.ok(), said());
        return std::move(opened).value();
    }

    ScratchFolder scratch;
    int port;
    std::unique_ptr<ChildProcess> program;
};

}  // namespace

TEST_CASE("no frame comes: told at once and when it is over, and noted in the recording (R2, R11)") {
    std::vector<std::string> quiet;
    SUBCASE("out loud") {}
    SUBCASE("with --quiet, in the recording all the same") {
        quiet = {"--quiet"};
    }
    const Recorder recorder(quiet);
    SendingPlates plates(static_cast<std::uint16_t>(recorder.port));
    wait_until([&] { return std::filesystem::exists(recorder.file() + ".journal"); });
    std::this_thread::sleep_for(500ms);
    plates.fall_silent();
    std::this_thread::sleep_for(600ms);
    if (quiet.empty()) CHECK(recorder.has_said("NO FRAME for "));
    plates.speak_again();
    std::this_thread::sleep_for(400ms);
    CHECK(recorder.stop() == 0);
    if (quiet.empty()) CHECK(recorder.has_said("frames come again"));
    if (!quiet.empty()) CHECK(recorder.said().empty());
    const RecordingReader reader = recorder.reader();
    CHECK(is_noted(reader.info(), "no frames come"));
    CHECK(is_noted(reader.info(), "frames come again"));
    CHECK(reader.info().outcome == RecordingOutcome::lossy);
    CHECK(reader.info().cause.find("lost") != std::string::npos);
    CHECK(read_file(recorder.scratch / "out").find(reader.info().cause) != std::string::npos);
}

TEST_CASE("another device in place of the first is not recorded, told and noted (R7, R21)") {
    const Recorder recorder;
    const auto port = static_cast<std::uint16_t>(recorder.port);
    auto plates = std::make_unique<SendingPlates>(port);
    wait_until([&] { return std::filesystem::exists(recorder.file() + ".journal"); });
    std::this_thread::sleep_for(300ms);
    plates.reset();
    {
        const SendingPlates stranger(port, test_serial + 1);
        wait_until([&] { return recorder.has_said("another device sends here"); });
    }
    CHECK(recorder.stop() == 0);
    CHECK(recorder.has_said("serial number " + std::to_string(test_serial) + ") again"));
    RecordingReader reader = recorder.reader();
    CHECK(is_noted(reader.info(), "another device sends here"));
    CHECK(reader.info().losses.foreign > 0);
    CHECK(reader.info().gaps.empty());
}

TEST_CASE("a small receive buffer is told and noted (R3)") {
    // The shim makes the system grant no more, whoever asks.
    const Recorder recorder({"--seconds", "0.3"}, {"LD_PRELOAD=" FOOTING_SHIM, "FOOTING_SHIM_BUFFER=65536"});
    const SendingPlates plates(static_cast<std::uint16_t>(recorder.port));
    CHECK(recorder.program->wait() == 0);
    CHECK(recorder.has_said("a receive buffer of only 64 kB"));
    CHECK(is_noted(recorder.reader().info(), "a receive buffer of only 64 kB"));
}

TEST_CASE("a port that is taken is named, and whoever has it is not disturbed (R8)") {
    const Recorder first({"--seconds", "1"});
    const SendingPlates plates(static_cast<std::uint16_t>(first.port));
    wait_until([&] { return std::filesystem::exists(first.file() + ".journal"); });
    const ScratchFolder scratch;
    const auto second =
        run_program({FOOTING_PROGRAM, "record", "--udp", here(first.port), "--out", scratch / "b.h5"});
    CHECK(second.exit_code == 4);
    CHECK(second.err.find("UDP " + here(first.port) + ": another program already listens on this port") !=
          std::string::npos);
    CHECK(first.program->wait() == 0);
    CHECK(first.reader().info().losses.lost == 0);
}

TEST_CASE("the status line shows frames, their age, and how long the disk will last (R9)") {
    const ScratchFolder scratch;
    const int port = free_udp_port();
    const SendingPlates plates(static_cast<std::uint16_t>(port));
    const auto shown = run_on_terminal(
        {FOOTING_PROGRAM, "record", "--udp", here(port), "--out", scratch / "a.h5"},
        [](const std::string& text) { return text.find("disk for ") != std::string::npos; }, 20.0);
    CHECK(shown.exit_code == 0);
    CHECK(shown.err.find(" frames, newest ") != std::string::npos);
    const std::size_t at = shown.err.find("disk for ");
    REQUIRE(at != std::string::npos);
    const double minutes = std::strtod(shown.err.c_str() + at + 9, nullptr);
    // 1,000 frames a second of 8 counts and their stamps are 50 to 100 kB/s, and the fold needs 0.7 of it
    // beside.
    const double free_bytes = static_cast<double>(std::filesystem::space(scratch.path()).available);
    CHECK(minutes > free_bytes / 1.75 / 110'000.0 / 60.0);
    CHECK(minutes < free_bytes / 1.65 / 40'000.0 / 60.0);
}

TEST_CASE("a disk that will soon be full is told before it is (R9)") {
    const ScratchFolder scratch;
    if (::mount("tmpfs", scratch.path().c_str(), "tmpfs", 0, "size=12m") != 0) {
        MESSAGE("skipped: mounting a small disk is not allowed here");
        return;
    }
    {
        const int port = free_udp_port();
        const SendingPlates plates(static_cast<std::uint16_t>(port));
        const auto said = run_program(
            {FOOTING_PROGRAM, "record", "--udp", here(port), "--out", scratch / "a.h5", "--seconds", "3"});
        CHECK(said.exit_code == 0);
        CHECK(said.err.find("the disk will be full in ") != std::string::npos);
        const auto reader = RecordingReader::open(scratch / "a.h5");
        REQUIRE(reader.ok());
        CHECK(is_noted(reader.value().info(), "disk for "));
    }
    ::umount2(scratch.path().c_str(), MNT_DETACH);
}

TEST_CASE(
    "a limit on the size of files, as a quota sets it: it stops by itself, says so, and the recording "
    "opens") {
    const ScratchFolder scratch;
    const int port = free_udp_port();
    ChildProcess golfer({FOOTING_PROGRAM, "emulate", "--udp", here(port), "--fast", "20", "--swings", "200"});
    // Half a megabyte: 1,024 blocks of 512 bytes. How much of the last block is left, for the end record or
    // not, is left to chance.
    const auto said = run_program({"/bin/sh", "-c", "ulimit -f 1024; exec \"$0\" \"$@\"", FOOTING_PROGRAM,
                                   "record", "--udp", here(port), "--out", scratch / "a.h5"});
    CHECK(said.exit_code == 5);
    CHECK_MESSAGE(said.err.find("no larger file is allowed") != std::string::npos, said.err);
    const auto reader = RecordingReader::open(scratch / "a.h5");
    REQUIRE_MESSAGE(reader.ok(), said.err);
    CHECK(reader.value().info().outcome == RecordingOutcome::incomplete);
    CHECK(reader.value().info().cause.find("no larger file is allowed") != std::string::npos);
    CHECK(reader.value().frame_count() > 3000);
}

TEST_CASE("--seconds ends a recording by the device's clock") {
    const Recorder recorder({"--seconds", "0.5"});
    const SendingPlates plates(static_cast<std::uint16_t>(recorder.port));
    CHECK(recorder.program->wait() == 0);
    const RecordingReader reader = recorder.reader();
    CHECK(reader.frame_count() >= 500);
    CHECK(reader.frame_count() < 5000);  // it looks each 20 ms; a busy machine may look late
    CHECK(read_file(recorder.scratch / "out").find("clean") != std::string::npos);
}

TEST_CASE("--swings ends a recording when so many swings are over, and they are marked in it") {
    const Recorder recorder({"--swings", "1"});
    ChildProcess golfer({FOOTING_PROGRAM, "emulate", "--udp", here(recorder.port), "--fast", "20", "--rate",
                         "200", "--swings", "30"});
    CHECK(recorder.program->wait() == 0);
    const RecordingReader reader = recorder.reader();
    CHECK(reader.info().swings.size() == 1);
    CHECK(reader.frame_count() < 200 * 200);  // 30 swings take more than 300 s
}

TEST_CASE("a device whose name holds control characters is recorded, and shows no terminal tricks") {
    const Recorder recorder({"--seconds", "0.2"});
    const UdpSender sender(static_cast<std::uint16_t>(recorder.port));
    DeviceDescription device = eight_cells();
    device.name = std::string("plates\x1b[2J\0x\x07", 13);
    std::uint32_t counter = 0;
    wait_until([&] {
        sender.send(described(device, counter));
        for (int i = 0; i < 10; ++i) sender.send(cells(counter++));
        return std::filesystem::exists(recorder.file());
    });
    CHECK(recorder.program->wait() == 0);
    CHECK(recorder.said().find('\x1b') == std::string::npos);
    CHECK(recorder.reader().info().device.name == "plates [2J x ");
}

TEST_CASE(
    "text lines from a mat are a wrong command line, and a folder that is missing is named as it was given") {
    const ScratchFolder scratch;
    const auto mat =
        run_program({FOOTING_PROGRAM, "emulate", "--udp", "127.0.0.1:9", "--text", "--mat", "8x8"});
    CHECK(mat.exit_code == 2);
    CHECK(mat.err.find("not a mat") != std::string::npos);
    write_file(scratch / "a.csv", "time_s,left_n,right_n\n0,1,2\n0.01,1,2\n0.02,1,2\n");
    const auto missing =
        run_program({FOOTING_PROGRAM, "import", scratch / "a.csv", "--out", scratch / "none/a.h5"});
    CHECK(missing.exit_code == 5);
    CHECK(missing.err.find(scratch / "none/a.h5: ") != std::string::npos);
    CHECK(missing.err.find(".tmp") == std::string::npos);
}
