#include <doctest/doctest.h>
#include <signal.h>

#include <algorithm>
#include <chrono>
#include <thread>
#include <unordered_map>

#include "acquisition/record/fold.h"
#include "tests/field/power_loss.h"
#include "tests/field/sending_plates.h"
#include "tests/support/child_process.h"

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

using Kind = FileOperation::Kind;

/// A whole recording by the program, clean to the end, and all that it did to its folder meanwhile.
struct Recorded {
    explicit Recorded(const samples::ScratchFolder& folder) {
        const int port = free_udp_port();
        ChildProcess recorder({"LD_PRELOAD=" FOOTING_SHIM,
                               "FOOTING_SHIM_FOLDER=" + (folder / "disk").string(),
                               "FOOTING_SHIM_LOG=" + (folder / "log").string(), FOOTING_PROGRAM, "record",
                               "--udp", "127.0.0.1:" + std::to_string(port), "--out",
                               (folder / "disk/a.h5").string(), "--seconds", "2.5"});
        const SendingPlates plates(static_cast<std::uint16_t>(port));
        exit_code = recorder.wait();
        operations = parse_file_operations(read_file((folder / "log").string()));
        auto reader = RecordingReader::open(folder / "disk/a.h5");
        REQUIRE(reader.ok());
        frames = reader.value().read(0, 1'000'000).value();
        for (std::size_t i = 0; i < frames.size(); ++i) index_of[frames.stamps[i].counter] = i;
    }

    /// Whether each of these frames is one of the recording's, bit for bit, in order.
    [[nodiscard]] bool holds(const FrameBlock& block) const {
        const auto& ours = std::get<std::vector<std::int32_t>>(frames.values);
        const auto& theirs = std::get<std::vector<std::int32_t>>(block.values);
        for (std::size_t i = 0; i < block.size(); ++i) {
            const auto at = index_of.find(block.stamps[i].counter);
            if (at == index_of.end() || !(frames.stamps[at->second] == block.stamps[i])) return false;
            if (!std::equal(theirs.begin() + static_cast<std::ptrdiff_t>(i * 8),
                            theirs.begin() + static_cast<std::ptrdiff_t>(i * 8 + 8),
                            ours.begin() + static_cast<std::ptrdiff_t>(at->second * 8)))
                return false;
            if (i > 0 && block.stamps[i].counter <= block.stamps[i - 1].counter) return false;
        }
        return true;
    }
    [[nodiscard]] std::size_t count(Kind kind) const {
        return static_cast<std::size_t>(
            std::ranges::count_if(operations, [&](const auto& one) { return one.kind == kind; }));
    }

    int exit_code = -1;
    std::vector<FileOperation> operations;
    FrameBlock frames;
    std::unordered_map<std::uint64_t, std::size_t> index_of;
};

/// What can be had of a folder after the power went.
struct Left {
    enum class By { nothing, journal, recording } by = By::nothing;
    FrameBlock frames;
};

/// Fails the test where there is something that cannot be opened.
Left look_at(const std::filesystem::path& folder) {
    Left left;
    std::filesystem::path recording = folder / "a.h5";
    if (std::filesystem::exists(recording)) {
        left.by = Left::By::recording;
    } else if (std::filesystem::exists(folder / "a.h5.journal")) {
        left.by = Left::By::journal;
        recording = folder / "saved.h5";
        const auto saved = recover(folder / "a.h5.journal", recording);
        if (!saved.ok() && saved.problem().what.find("no frame") != std::string::npos) return left;
        REQUIRE_MESSAGE(saved.ok(), sentence(saved.problem()));
    } else {
        return left;
    }
    auto reader = RecordingReader::open(recording);
    REQUIRE_MESSAGE(reader.ok(), sentence(reader.problem()));
    const RecordingCheck check = reader.value().check();
    CHECK(check.damaged.empty());
    CHECK(check.facts == Facts::as_written);
    left.frames = reader.value().read(0, 1'000'000).value();
    return left;
}

}  // namespace

TEST_CASE(
    "the power goes at any instant of a recording by the program: old state or new, never an error (R10)") {
    const samples::ScratchFolder folder;
    std::filesystem::create_directory(folder / "disk");
    const Recorded recorded(folder);
    REQUIRE(recorded.exit_code == 0);
    // The shim saw it all: the journal's and the recording's names, bytes, and both kinds of sync.
    CHECK(recorded.count(Kind::write) > 50);
    CHECK(recorded.count(Kind::sync) >= 4);
    CHECK(recorded.count(Kind::sync_folder) >= 3);
    CHECK(recorded.count(Kind::rename) == 2);
    CHECK(recorded.count(Kind::unlink) >= 1);

    samples::Chance chance(4711);
    std::size_t by_journal = 0;
    std::size_t by_recording = 0;
    const std::size_t steps = recorded.operations.size();
    for (std::size_t round = 0; round < 250; ++round) {
        // Each instant round the end, where names change, and any instant before.
        const std::size_t after = round < 100 ? steps - std::min(round, steps) : chance.below(steps + 1);
        CAPTURE(after);
        const PowerLossDisk disk(std::span(recorded.operations).first(after));
        const samples::ScratchFolder least;
        const samples::ScratchFolder crashed;
        disk.leave(least.path(), PowerLossDisk::Unsynced::lost, chance);
        disk.leave(crashed.path(), PowerLossDisk::Unsynced::up_to_chance, chance);
        const Left certain = look_at(least.path());
        const Left left = look_at(crashed.path());
        CHECK((left.by != Left::By::nothing || !disk.has_synced_a_name()));
        CHECK(recorded.holds(left.frames));
        CHECK(left.frames.size() >= certain.frames.size());
        if (left.by == Left::By::recording) CHECK(left.frames.size() == recorded.frames.size());
        by_journal += left.by == Left::By::journal ? 1U : 0U;
        by_recording += left.by == Left::By::recording ? 1U : 0U;
    }
    CHECK(by_journal > 50);
    CHECK(by_recording > 2);
}
