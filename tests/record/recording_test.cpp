#include <doctest/doctest.h>

#include <sys/stat.h>

#include "acquisition/record/recording_json.h"
#include "tests/record/samples.h"

using namespace footing;
using namespace footing::samples;

namespace {

RecordingInfo eventful(const DeviceDescription& device) {
    RecordingInfo info = info_for(device);
    info.losses = {1000, 8, 1, 2, 3, 4, 5, 6, 7};
    info.gaps = {{120, 7, 5'020'000, 5'028'000}, {300, 1, 5'207'000, 5'209'000}};
    info.notes = {{5'100'000'000, "zeroed: left 12, right 9"}, {6'000'000'000, "Ü mark by the coach"}};
    info.swings = {{3.25, 6.5}, {20.0, 23.125}};
    info.outcome = RecordingOutcome::lossy;
    info.cause = "8 frames were lost on the line";
    return info;
}

void check_same_facts(const RecordingInfo& read, const RecordingInfo& written) {
    CHECK(recording_json(read) == recording_json(written));
    CHECK(read.gaps == written.gaps);
    CHECK(read.notes == written.notes);
    CHECK(read.swings == written.swings);
    CHECK(read.device.layout.plates.size() == written.device.layout.plates.size());
    for (std::size_t i = 0; i < read.device.layout.plates.size(); ++i) {
        CHECK(read.device.layout.plates[i].centre == written.device.layout.plates[i].centre);
        CHECK(read.device.layout.plates[i].cells == written.device.layout.plates[i].cells);
    }
}

template <typename Value>
void check_round_trip(const DeviceDescription& device, const FrameBlock& frames) {
    const ScratchFolder folder;
    const RecordingInfo info = eventful(device);
    const Outcome written = write_recording(folder / "a.h5", info, frames);
    REQUIRE_MESSAGE(written.ok(), (written.ok() ? "" : sentence(written.problem())));
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE_MESSAGE(reader.ok(), (reader.ok() ? "" : sentence(reader.problem())));
    check_same_facts(reader.value().info(), info);
    REQUIRE(reader.value().frame_count() == frames.size());
    Result<FrameBlock> read = reader.value().read(0, frames.size());
    REQUIRE(read.ok());
    CHECK(read.value().stamps == frames.stamps);
    CHECK(std::get<std::vector<Value>>(read.value().values) == std::get<std::vector<Value>>(frames.values));
    const RecordingCheck check = reader.value().check();
    CHECK(check.facts == Facts::as_written);
    CHECK(check.damaged.empty());
}

}  // namespace

TEST_CASE("what is written is what is read, for every kind of frame and value") {
    SUBCASE("raw counts of cells") {
        check_round_trip<std::int32_t>(two_plates(), cell_frames(0, 1234));
    }
    SUBCASE("more than one chunk") {
        check_round_trip<std::int32_t>(two_plates(), cell_frames(0, 40000));
    }
    SUBCASE("exactly one chunk") {
        check_round_trip<std::int32_t>(two_plates(), cell_frames(0, 4096));
    }
    SUBCASE("newtons of cells") {
        check_round_trip<double>(two_plates(), frames_of<double>(0, 777, 8));
    }
    SUBCASE("raw counts of a mat") {
        check_round_trip<std::uint16_t>(small_mat(), frames_of<std::uint16_t>(0, 20000, 30));
    }
    SUBCASE("newtons of a mat") {
        check_round_trip<double>(small_mat(), frames_of<double>(0, 50, 30));
    }
    SUBCASE("components") {
        check_round_trip<double>(component_plates(), frames_of<double>(0, 333, 12));
    }
    SUBCASE("one frame") {
        check_round_trip<std::int32_t>(two_plates(), cell_frames(0, 1));
    }
    SUBCASE("no frame at all") {
        check_round_trip<std::int32_t>(two_plates(), cell_frames(0, 0));
    }
}

TEST_CASE("any part of a recording can be read") {
    const ScratchFolder folder;
    REQUIRE(write_recording(folder / "a.h5", info_for(two_plates()), cell_frames(0, 50000)).ok());
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    Chance chance(7);
    for (int i = 0; i < 50; ++i) {
        const std::uint64_t first = chance.below(50010);
        const std::size_t count = chance.below(40000);
        Result<FrameBlock> block = reader.value().read(first, count);
        REQUIRE(block.ok());
        const std::uint64_t left = first < 50000 ? 50000 - first : 0;
        CHECK(block.value().size() == std::min<std::uint64_t>(count, left));
        CHECK(frames_are_true(block.value()));
        if (block.value().size() > 0) CHECK(block.value().stamps[0] == stamp_at(first));
    }
}

TEST_CASE("a frame that does not fit is refused and nothing of the recording remains") {
    const ScratchFolder folder;
    {
        Result<RecordingWriter> writer = RecordingWriter::create(folder / "a.h5", info_for(two_plates()));
        REQUIRE(writer.ok());
        CHECK(writer.value().append(cell_frames(0, 3)).ok());
        const Outcome other_width = writer.value().append(cell_frames(3, 1, 7));
        REQUIRE(!other_width.ok());
        CHECK(other_width.problem().kind == ProblemKind::bad_input);
        CHECK(!writer.value().append(frames_of<double>(3, 1, 8)).ok());
        CHECK(!writer.value().append(frames_of<std::uint16_t>(3, 1, 8)).ok());
    }
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("layouts beyond the bounds are refused before a file is made") {
    const ScratchFolder folder;
    DeviceDescription device = two_plates();
    device.layout.plates[0].cells.resize(most_cells);
    CHECK(!RecordingWriter::create(folder / "a.h5", info_for(device)).ok());
    device = small_mat();
    device.layout.grid->rows = 4000;
    CHECK(!RecordingWriter::create(folder / "a.h5", info_for(device)).ok());
    device.layout.grid->rows = 0;
    CHECK(!RecordingWriter::create(folder / "a.h5", info_for(device)).ok());
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("nothing existing is ever overwritten (R15)") {
    const ScratchFolder folder;
    SUBCASE("there from the start") {
        put_bytes(folder / "a.h5", {'k', 'e', 'e', 'p'});
        Result<RecordingWriter> writer = RecordingWriter::create(folder / "a.h5", info_for(two_plates()));
        REQUIRE(!writer.ok());
        CHECK(writer.problem().kind == ProblemKind::command_line);
    }
    SUBCASE("a link that leads nowhere counts too") {
        std::filesystem::create_symlink(folder / "nowhere", folder / "a.h5");
        CHECK(!RecordingWriter::create(folder / "a.h5", info_for(two_plates())).ok());
        CHECK(!std::filesystem::exists(folder / "nowhere"));
        return;
    }
    SUBCASE("made by somebody while the recording was written") {
        Result<RecordingWriter> writer = RecordingWriter::create(folder / "a.h5", info_for(two_plates()));
        REQUIRE(writer.ok());
        CHECK(writer.value().append(cell_frames(0, 10)).ok());
        put_bytes(folder / "a.h5", {'k', 'e', 'e', 'p'});
        const Outcome closed = writer.value().close(info_for(two_plates()));
        REQUIRE(!closed.ok());
        CHECK(closed.problem().kind == ProblemKind::command_line);
    }
    CHECK(bytes_of(folder / "a.h5") == std::vector<char>{'k', 'e', 'e', 'p'});
}

TEST_CASE("until it is whole a recording has another name, and then only its own (R14)") {
    const ScratchFolder folder;
    Result<RecordingWriter> writer = RecordingWriter::create(folder / "a.h5", info_for(two_plates()));
    REQUIRE(writer.ok());
    CHECK(writer.value().append(cell_frames(0, 100000)).ok());
    CHECK(!std::filesystem::exists(folder / "a.h5"));
    CHECK(writer.value().close(info_for(two_plates())).ok());
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        ++files;
        CHECK(entry.path().filename() == "a.h5");
    }
    CHECK(files == 1);
}

TEST_CASE("a folder that is missing or locked is a disk problem with advice") {
    const ScratchFolder folder;
    Result<RecordingWriter> writer = RecordingWriter::create(folder / "no/such/a.h5", info_for(two_plates()));
    REQUIRE(!writer.ok());
    CHECK(writer.problem().kind == ProblemKind::disk_failed);
    CHECK(writer.problem().remedy.find("make it first") != std::string::npos);
}

TEST_CASE("what is no recording is refused with a sentence") {
    const ScratchFolder folder;
    const auto refused = [&](const std::filesystem::path& path, const std::string& word) {
        Result<RecordingReader> reader = RecordingReader::open(path);
        REQUIRE(!reader.ok());
        CHECK(reader.problem().kind == ProblemKind::bad_input);
        CHECK_MESSAGE(sentence(reader.problem()).find(word) != std::string::npos, sentence(reader.problem()));
    };
    refused(folder / "missing.h5", "no such file");
    refused(folder.path(), "folder");
    put_bytes(folder / "empty.h5", {});
    refused(folder / "empty.h5", "0 bytes");
    put_bytes(folder / "text.h5", {'t', 'i', 'm', 'e', '_', 's', '\n', '0'});
    refused(folder / "text.h5", "no HDF5");
    ::mkfifo((folder / "pipe.h5").c_str(), 0600);
    refused(folder / "pipe.h5", "no ordinary file");
}
