#include <doctest/doctest.h>

#include "acquisition/frame/clock.h"
#include "acquisition/record/fold.h"
#include "acquisition/record/replay_source.h"
#include "tests/record/journal_samples.h"

using namespace footing;
using namespace footing::samples;

namespace {

/// Keeps what a source hands out, in order.
struct Kept final : FrameSink {
    FrameBlock frames;
    std::vector<Gap> gaps;
    std::vector<std::size_t> gap_before_frame;

    void take_frame(const FrameView& frame) override {
        frames.stamps.push_back(frame.stamp);
        const auto values = std::get<std::span<const std::int32_t>>(frame.values);
        frames.values_per_frame = values.size();
        auto& all = std::get<std::vector<std::int32_t>>(frames.values);
        all.insert(all.end(), values.begin(), values.end());
    }
    void take_gap(const Gap& gap) override {
        gaps.push_back(gap);
        gap_before_frame.push_back(frames.size());
    }
};

Kept replay(const std::filesystem::path& path) {
    const SystemClock clock;
    ReplaySource source(path, Pace::as_fast_as_possible, clock);
    Kept kept;
    const auto opened = source.open(std::chrono::milliseconds(0));
    REQUIRE_MESSAGE(opened.ok(), (opened.ok() ? "" : sentence(opened.problem())));
    while (true) {
        const Result<SourceState> state = source.poll(kept, std::chrono::milliseconds(0));
        REQUIRE(state.ok());
        if (state.value() == SourceState::finished) return kept;
    }
}

/// A journal in which frames 100..106 and 500 never came, told as gaps, and closed or not.
void journal_with_gaps(const std::filesystem::path& path, const RecordingInfo* end) {
    Result<JournalWriter> writer = JournalWriter::create(path, info_for(two_plates()), 5'000'000'000);
    REQUIRE(writer.ok());
    const FrameBlock block = cell_frames(0, 1000);
    std::uint64_t missing = 0;
    for (std::size_t i = 0; i < block.size(); ++i) {
        if ((i >= 100 && i < 107) || i == 500) {
            ++missing;
            continue;
        }
        if (missing > 0) {
            const FrameStamp before = stamp_at(i - missing - 1);
            REQUIRE(writer.value()
                        .append(Gap{before.counter, missing, before.device_time_us,
                                    block.stamps[i].device_time_us})
                        .ok());
            missing = 0;
        }
        REQUIRE(writer.value().append(block.frame(i), block.stamps[i].host_time_ns).ok());
        REQUIRE(writer.value().keep_up(block.stamps[i].host_time_ns, {}).ok());
    }
    if (end != nullptr) REQUIRE(writer.value().close(*end).ok());
}

}  // namespace

TEST_CASE("a closed journal becomes a recording with the same frames, gaps and facts, and goes away") {
    const ScratchFolder folder;
    RecordingInfo end = info_for(two_plates());
    end.outcome = RecordingOutcome::lossy;
    end.cause = "8 frames lost";
    end.losses.lost = 8;
    end.losses.frames = 992;
    journal_with_gaps(folder / "a.h5.journal", &end);
    const Kept from_journal = replay(folder / "a.h5.journal");
    const Result<SalvageReport> report =
        fold_and_remove_journal(folder / "a.h5.journal", folder / "a.h5", info_for(two_plates()));
    REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : sentence(report.problem())));
    CHECK(!std::filesystem::exists(folder / "a.h5.journal"));
    CHECK(report.value().frames_lost == 0);
    CHECK(report.value().duration_s == doctest::Approx(0.999));

    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    CHECK(reader.value().frame_count() == 992);
    CHECK(reader.value().info().outcome == RecordingOutcome::lossy);
    CHECK(reader.value().info().losses.lost == 8);
    REQUIRE(reader.value().info().gaps.size() == 2);
    CHECK(reader.value().info().gaps[0].frames_missing == 7);
    // Host time was made one to one with device time, 4.999... s apart.
    CHECK(reader.value().info().clock.slope == doctest::Approx(1.0).epsilon(1e-9));
    CHECK(reader.value().info().clock.residual_sd_ns < 1.0);

    const Kept from_recording = replay(folder / "a.h5");
    CHECK(frames_are_true(from_recording.frames));
    CHECK(from_recording.frames.stamps == from_journal.frames.stamps);
    CHECK(from_recording.gaps == from_journal.gaps);
    CHECK(from_recording.gap_before_frame == from_journal.gap_before_frame);
    CHECK(from_recording.gap_before_frame == std::vector<std::size_t>{100, 493});
}

TEST_CASE("a journal without room for its end record is closed by what the recorder still knows") {
    const ScratchFolder folder;
    journal_with_gaps(folder / "a.h5.journal", nullptr);
    RecordingInfo closing = info_for(two_plates());
    closing.outcome = RecordingOutcome::incomplete;
    closing.cause = "the disk is full";
    REQUIRE(fold_and_remove_journal(folder / "a.h5.journal", folder / "a.h5", closing).ok());
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    CHECK(reader.value().frame_count() >= 980);  // all but the batch under way
    CHECK(reader.value().info().outcome == RecordingOutcome::incomplete);
    CHECK(reader.value().info().cause == "the disk is full");
}

TEST_CASE("a journal that was never closed becomes a truncated recording of all that was written") {
    const ScratchFolder folder;
    journal_with_gaps(folder / "a.h5.journal", nullptr);
    const Result<SalvageReport> report = recover(folder / "a.h5.journal", folder / "a.h5");
    REQUIRE(report.ok());
    CHECK(report.value().info.outcome == RecordingOutcome::truncated);
    CHECK(!report.value().info.cause.empty());
    CHECK(report.value().info.frame_count >= 970);  // the last batch may not have been flushed
    CHECK(std::filesystem::exists(folder / "a.h5.journal"));
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    CHECK(frames_are_true(reader.value().read(0, 2000).value()));
}

TEST_CASE("recover skips the damage, tells what was lost, and leaves the input as it was (R12)") {
    const ScratchFolder folder;
    SUBCASE("a journal") {
        std::vector<char> bytes = closed_journal(2000);
        for (std::size_t i = 0; i < 300; ++i) bytes[bytes.size() / 2 + i] = 'x';
        put_bytes(folder / "in.journal", bytes);
        const Result<SalvageReport> report = recover(folder / "in.journal", folder / "out.h5");
        REQUIRE(report.ok());
        CHECK(report.value().frames_lost > 0);
        CHECK(report.value().info.frame_count + report.value().frames_lost == 2000);
        CHECK(report.value().seconds_lost ==
              doctest::Approx(0.001 * static_cast<double>(report.value().frames_lost)));
        CHECK(report.value().info.outcome == RecordingOutcome::lossy);
        CHECK(bytes_of(folder / "in.journal") == bytes);
    }
    SUBCASE("a recording") {
        REQUIRE(write_recording(folder / "in.h5", info_for(two_plates()), cell_frames(0, 100000)).ok());
        std::vector<char> bytes = bytes_of(folder / "in.h5");
        for (std::size_t i = 0; i < 64; ++i) bytes[bytes.size() / 2 + i] = 'x';
        put_bytes(folder / "in.h5", bytes);
        const Result<SalvageReport> report = recover(folder / "in.h5", folder / "out.h5");
        REQUIRE(report.ok());
        CHECK(report.value().frames_lost > 0);
        CHECK(report.value().info.frame_count + report.value().frames_lost == 100000);
        CHECK(bytes_of(folder / "in.h5") == bytes);
    }
    Result<RecordingReader> reader = RecordingReader::open(folder / "out.h5");
    REQUIRE(reader.ok());
    CHECK(frames_are_true(reader.value().read(0, 200000).value()));
    const RecordingCheck check = reader.value().check();
    CHECK(check.damaged.empty());
    std::uint64_t missing = 0;
    for (const Gap& gap : reader.value().info().gaps) missing += gap.frames_missing;
    CHECK(missing == reader.value().info().losses.lost);
}

TEST_CASE("a recording of which nothing is left is refused, not made empty") {
    const ScratchFolder folder;
    REQUIRE(write_recording(folder / "in.h5", info_for(two_plates()), cell_frames(0, 2000)).ok());
    std::vector<char> bytes = bytes_of(folder / "in.h5");
    for (std::size_t i = 0; i < 64; ++i) bytes[bytes.size() / 2 + i] = 'x';
    put_bytes(folder / "in.h5", bytes);
    const Result<SalvageReport> report = recover(folder / "in.h5", folder / "out.h5");
    REQUIRE_FALSE(report.ok());
    CHECK(report.problem().kind == ProblemKind::bad_input);
    CHECK(report.problem().what.find("2000 frames, all damaged") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder / "out.h5"));
}

TEST_CASE("power lost while the fold is under way: the journal is there, or the recording, or both (R10)") {
    const ScratchFolder folder;
    journal_with_gaps(folder / "a.h5.journal", nullptr);
    // What a crash before the rename leaves: a temporary file cut off anywhere, and the journal.
    Result<RecordingWriter> writer = RecordingWriter::create(folder / "a.h5", info_for(two_plates()));
    REQUIRE(writer.ok());
    REQUIRE(writer.value().append(cell_frames(0, 20000)).ok());
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        if (entry.path().extension() != ".tmp") continue;
        std::filesystem::copy_file(entry.path(), folder / "a.h5.1234abcd.tmp");
    }
    CHECK(fold_and_remove_journal(folder / "a.h5.journal", folder / "a.h5", info_for(two_plates())).ok());
    CHECK(RecordingReader::open(folder / "a.h5").ok());
    // What a crash after the rename leaves: the recording, and the journal once more. Folding again
    // overwrites nothing.
    const std::vector<char> whole = bytes_of(folder / "a.h5");
    journal_with_gaps(folder / "a.h5.journal", nullptr);
    CHECK(!fold_and_remove_journal(folder / "a.h5.journal", folder / "a.h5", info_for(two_plates())).ok());
    CHECK(std::filesystem::exists(folder / "a.h5.journal"));
    CHECK(bytes_of(folder / "a.h5") == whole);
}

TEST_CASE("a recording can be played at the pace at which it was made") {
    const ScratchFolder folder;
    REQUIRE(write_recording(folder / "a.h5", info_for(two_plates()), cell_frames(0, 50)).ok());
    FakeClock clock;
    ReplaySource source(folder / "a.h5", Pace::as_recorded, clock);
    REQUIRE(source.open(std::chrono::milliseconds(0)).ok());
    Kept kept;
    REQUIRE(source.poll(kept, std::chrono::milliseconds(0)).ok());
    CHECK(kept.frames.size() == 1);
    clock.advance_ns(10'500'000);
    REQUIRE(source.poll(kept, std::chrono::milliseconds(0)).ok());
    CHECK(kept.frames.size() == 11);
    clock.advance_ns(1'000'000'000);
    while (source.poll(kept, std::chrono::milliseconds(0)).value() != SourceState::finished) {
    }
    CHECK(kept.frames.size() == 50);
    CHECK(source.losses().frames == 50);
}

TEST_CASE("a recovery that is given up leaves nothing half-made, and the input as it was") {
    const ScratchFolder folder;
    WorkWatch watch;
    watch.give_up();
    const auto check_gone = [&](const char* input) {
        const std::vector<char> bytes = bytes_of(folder / input);
        const Result<SalvageReport> report = recover(folder / input, folder / "out.h5", &watch);
        REQUIRE_FALSE(report.ok());
        CHECK(sentence(report.problem()).find("given up") != std::string::npos);
        CHECK(bytes_of(folder / input) == bytes);
        CHECK(std::distance(std::filesystem::directory_iterator(folder.path()),
                            std::filesystem::directory_iterator()) == 1);
    };
    SUBCASE("a journal") {
        journal_with_gaps(folder / "in.journal", nullptr);
        check_gone("in.journal");
    }
    SUBCASE("a recording") {
        REQUIRE(write_recording(folder / "in.h5", info_for(two_plates()), cell_frames(0, 1000)).ok());
        check_gone("in.h5");
    }
}
