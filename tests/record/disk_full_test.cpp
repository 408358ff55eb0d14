#include <doctest/doctest.h>

#include "tests/record/samples.h"
#include "tests/support/child_process.h"
#include "tests/support/small_disk.h"

using namespace footing;
using namespace footing::samples;

TEST_CASE("a disk that fills up while recording: it stops by itself, says so, and the recording opens (R9)") {
    const test::SmallDisk disk("4m");
    if (!disk.exists()) {
        MESSAGE("skipped: mounting a small disk is not allowed here");
        return;
    }
    const std::string out = (disk / "a.h5").string();
    const std::string address = "127.0.0.1:" + std::to_string(test::free_udp_port());
    test::ChildProcess device(
        {FOOTING_PROGRAM, "emulate", "--udp", address, "--fast", "20", "--swings", "200"});
    const test::ProgramOutput said =
        test::run_program({FOOTING_PROGRAM, "record", "--udp", address, "--out", out});
    CHECK(said.exit_code == 5);
    CHECK_MESSAGE(said.err.find("the disk is full") != std::string::npos, said.err);
    CHECK(!std::filesystem::exists(out + ".journal"));
    Result<RecordingReader> reader = RecordingReader::open(out);
    REQUIRE_MESSAGE(reader.ok(), (said.err + said.out));
    CHECK(reader.value().info().outcome == RecordingOutcome::incomplete);
    CHECK(reader.value().info().cause.find("the disk is full") != std::string::npos);
    CHECK(reader.value().frame_count() > 10000);
    CHECK(reader.value().check().damaged.empty());
}

TEST_CASE("a disk that is full when the recording is made of the journal: a sentence, no half recording") {
    const test::SmallDisk disk("1m");
    if (!disk.exists()) {
        MESSAGE("skipped: mounting a small disk is not allowed here");
        return;
    }
    Result<RecordingWriter> writer = RecordingWriter::create(disk / "a.h5", info_for(two_plates()));
    REQUIRE(writer.ok());
    Outcome outcome = Done{};
    for (std::uint64_t first = 0; outcome.ok() && first < 400'000; first += 20'000) {
        outcome = writer.value().append(cell_frames(first, 20'000));
    }
    if (outcome.ok()) outcome = writer.value().close(info_for(two_plates()));
    REQUIRE(!outcome.ok());
    CHECK(outcome.problem().kind == ProblemKind::disk_failed);
    CHECK_MESSAGE(outcome.problem().what.find("the disk is full") != std::string::npos,
                  outcome.problem().what);
    CHECK(!std::filesystem::exists(disk / "a.h5"));
}

TEST_CASE("wherever the disk is full, the file is closed and nothing of it is left") {
    int failures = 0;
    for (std::uint64_t kilobytes = 4; kilobytes <= 100; kilobytes += 8) {
        CAPTURE(kilobytes);
        test::SmallDisk disk((std::to_string(kilobytes) + "k").c_str());
        if (!disk.exists()) {
            MESSAGE("skipped: mounting a small disk is not allowed here");
            return;
        }
        Outcome outcome = Done{};
        {
            Result<RecordingWriter> writer = RecordingWriter::create(disk / "a.h5", info_for(two_plates()));
            outcome = writer.ok() ? writer.value().append(cell_frames(0, 3000)) : writer.problem();
            if (outcome.ok()) outcome = writer.value().close(info_for(two_plates()));
        }
        if (outcome.ok()) continue;
        ++failures;
        CHECK_MESSAGE(outcome.problem().what.find("the disk is full") != std::string::npos,
                      outcome.problem().what);
        CHECK(std::filesystem::is_empty(disk / ""));
        CHECK(disk.can_be_removed());
    }
    CHECK(failures > 5);
}

TEST_CASE("the program ends in order when the recording grows larger than it may, wherever that is") {
    const ScratchFolder folder;
    const std::string source = (folder / "a.h5").string();
    {
        Result<RecordingWriter> writer = RecordingWriter::create(source, info_for(two_plates()));
        REQUIRE(writer.ok());
        REQUIRE(writer.value().append(cell_frames(0, 3000)).ok());
        REQUIRE(writer.value().close(info_for(two_plates())).ok());
    }
    const std::string target = (folder / "d.h5").string();
    for (const std::string kilobytes : {"1", "2", "5", "8", "13", "20", "30", "40"}) {
        CAPTURE(kilobytes);
        const test::ProgramOutput said =
            test::run_program({"/bin/bash", "-c", R"(ulimit -f "$1"; exec "$2" recover "$3" --out "$4")",
                               "bash", kilobytes, FOOTING_PROGRAM, source, target});
        CHECK_MESSAGE(said.exit_code == 5, said.err);
        CHECK_MESSAGE(said.err.find("no larger file is allowed on this disk") != std::string::npos, said.err);
        CHECK(std::distance(std::filesystem::directory_iterator(folder / ""), {}) == 1);
    }
}
