#include <doctest/doctest.h>

#include <filesystem>

#include "acquisition/frame/clock.h"
#include "acquisition/record/fold.h"
#include "acquisition/record/recording_reader.h"
#include "acquisition/record/recording_writer.h"
#include "acquisition/record/replay_source.h"
#include "tests/record/samples.h"

using namespace footing;
using namespace footing::samples;

namespace {

constexpr std::uint64_t frames_each = 5000;

DeviceDescription single(const std::string& name, double centre_x_m, std::uint32_t serial) {
    DeviceDescription device = two_plates();
    device.name = name + " plate";
    device.serial = serial;
    device.layout.plates = {{name, {centre_x_m, 0.0}, device.layout.plates.front().cells}};
    return device;
}

RecordingInfo info_of_two() {
    RecordingInfo info = info_for(two_plates());
    info.calibration_json.clear();
    info.devices.resize(2);
    info.devices[0].device = single("left", -0.2, 1);
    info.devices[1].device = single("right", 0.2, 2);
    info.devices[1].origin = "UDP 127.0.0.1:9751";
    info.devices[1].losses.damaged = 3;
    return info;
}

/// Frame `i` of a device: the first counts from 100, the second from 9000 and half a millisecond later, with
/// a clock that is 10 s ahead. All values tell the true instant in microseconds.
FrameStamp stamp_of(std::size_t device, std::uint64_t i) {
    const std::uint64_t late_us = device == 0 ? 0 : 500;
    return {(device == 0 ? 100 : 9000) + i, (device == 0 ? 5'000'000 : 15'000'000) + 1000 * i,
            5'000'000'000 + static_cast<std::int64_t>(1000 * i + late_us) * 1000, 0};
}

std::vector<std::int32_t> values_of(std::size_t device, std::uint64_t i) {
    return std::vector<std::int32_t>(4, static_cast<std::int32_t>(1000 * i + (device == 0 ? 0 : 500)));
}

/// A journal of two devices, of which the second did not send frames 2000 to 2999; closed or not.
void write_journal(const std::filesystem::path& path, const RecordingInfo* end) {
    Result<JournalWriter> writer = JournalWriter::create(path, info_of_two(), 5'000'000'000);
    REQUIRE(writer.ok());
    for (std::uint64_t i = 0; i < frames_each; ++i) {
        for (std::size_t device = 0; device < 2; ++device) {
            const auto number = static_cast<std::uint16_t>(device + 1);
            if (device == 1 && i >= 2000 && i < 3000) continue;
            const FrameStamp stamp = stamp_of(device, i);
            if (device == 1 && i == 3000) {
                const FrameStamp before = stamp_of(1, 1999);
                REQUIRE(writer.value()
                            .append(Gap{before.counter, 1000, before.device_time_us, stamp.device_time_us},
                                    number)
                            .ok());
            }
            const std::vector<std::int32_t> values = values_of(device, i);
            REQUIRE(writer.value()
                        .append(FrameView{stamp, std::span<const std::int32_t>(values)}, stamp.host_time_ns,
                                number)
                        .ok());
        }
        REQUIRE(writer.value().keep_up(stamp_of(0, i).host_time_ns, {}).ok());
    }
    REQUIRE(writer.value().append(RecordingNote{1, "a note"}).ok());
    if (end != nullptr) REQUIRE(writer.value().close(*end).ok());
}

/// Both devices' frames as they were sent, and joined frames that are true.
void check_frames(RecordingReader& reader) {
    const RecordingInfo& info = reader.info();
    REQUIRE(info.devices.size() == 2);
    CHECK(info.devices[0].frame_count == frames_each);
    CHECK(info.devices[1].frame_count == frames_each - 1000);
    for (std::size_t device = 0; device < 2; ++device) {
        const Result<FrameBlock> block = reader.read_device(device, 0, frames_each);
        REQUIRE(block.ok());
        std::uint64_t i = 0;
        bool as_sent = true;
        for (std::size_t at = 0; at < block.value().size(); ++at, ++i) {
            if (device == 1 && i == 2000) i = 3000;
            as_sent = as_sent && block.value().stamps[at] == stamp_of(device, i) &&
                      std::get<std::vector<std::int32_t>>(block.value().values)[at * 4] ==
                          values_of(device, i).front();
        }
        CHECK(as_sent);
    }
    REQUIRE(info.devices[1].gaps.size() == 1);
    CHECK(info.devices[1].gaps[0].frames_missing == 1000);

    // The first instant has no frame of the second device before it; over the gap there is nothing.
    CHECK(info.frame_count == frames_each - 1 - 1001);
    REQUIRE(info.gaps.size() == 1);
    CHECK(info.gaps[0].after_counter == 100 + 1999);
    CHECK(info.gaps[0].frames_missing == 1001);
    const Result<FrameBlock> joined = reader.read(0, frames_each);
    REQUIRE(joined.ok());
    const auto& values = std::get<std::vector<std::int32_t>>(joined.value().values);
    bool true_values = true;
    for (std::size_t at = 0; at < joined.value().size(); ++at) {
        const auto true_us = static_cast<std::int32_t>((joined.value().stamps[at].counter - 100) * 1000);
        true_values = true_values && values[at * 8] == true_us && std::abs(values[at * 8 + 7] - true_us) <= 1;
    }
    CHECK(true_values);
}

}  // namespace

TEST_CASE("a journal of two devices keeps what each sent, and joins it on the first one's clock") {
    const ScratchFolder folder;
    RecordingInfo end = info_of_two();
    end.outcome = RecordingOutcome::lossy;
    // Where there was no room for an end record, the recorder tells the same.
    bool room = true;
    SUBCASE("closed") {}
    SUBCASE("without room for the end record") {
        room = false;
    }
    write_journal(folder / "a.h5.journal", room ? &end : nullptr);
    const Result<SalvageReport> report =
        fold_and_remove_journal(folder / "a.h5.journal", folder / "a.h5", room ? info_of_two() : end);
    REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : sentence(report.problem())));
    CHECK(report.value().frames_lost == 0);
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE_MESSAGE(reader.ok(), (reader.ok() ? "" : sentence(reader.problem())));
    check_frames(reader.value());
    const RecordingInfo& info = reader.value().info();
    CHECK(info.outcome == RecordingOutcome::lossy);
    CHECK(info.notes.size() == 1);
    CHECK(info.devices[1].losses.damaged == 3);
    CHECK(info.devices[1].losses.lost == 1000);
    CHECK(info.devices[1].origin == "UDP 127.0.0.1:9751");
    CHECK(joined_residual_ns(info) < 1000.0);
    const RecordingCheck check = reader.value().check();
    CHECK(check.facts == Facts::as_written);
    CHECK(check.devices.size() == 2);
    CHECK(check.devices_are_whole());
}

TEST_CASE("a journal of two devices that was never closed is folded as far as it goes") {
    const ScratchFolder folder;
    write_journal(folder / "a.h5.journal", nullptr);
    std::filesystem::resize_file(folder / "a.h5.journal",
                                 std::filesystem::file_size(folder / "a.h5.journal") - 7);
    const Result<SalvageReport> report = recover(folder / "a.h5.journal", folder / "a.h5");
    REQUIRE_MESSAGE(report.ok(), (report.ok() ? "" : sentence(report.problem())));
    CHECK(report.value().info.outcome == RecordingOutcome::truncated);
    Result<RecordingReader> reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    check_frames(reader.value());
}

TEST_CASE("from a damaged recording of two devices what is left of each is joined anew") {
    const ScratchFolder folder;
    RecordingInfo end = info_of_two();
    write_journal(folder / "a.h5.journal", &end);
    REQUIRE(fold_journal(folder / "a.h5.journal", folder / "a.h5").ok());
    SUBCASE("nothing is damaged") {
        REQUIRE(recover(folder / "a.h5", folder / "b.h5").ok());
        Result<RecordingReader> reader = RecordingReader::open(folder / "b.h5");
        REQUIRE(reader.ok());
        check_frames(reader.value());
    }
    SUBCASE("anywhere: it is told, and no frame is wrong") {
        const auto size = static_cast<std::size_t>(std::filesystem::file_size(folder / "a.h5"));
        std::size_t told = 0;
        for (std::size_t at = 4000; at < size; at += size / 23) {
            std::filesystem::copy_file(folder / "a.h5", folder / "c.h5",
                                       std::filesystem::copy_options::overwrite_existing);
            std::fstream file(folder / "c.h5", std::ios::in | std::ios::out | std::ios::binary);
            file.seekp(static_cast<std::streamoff>(at));
            file.write("\xA5\x5A\xA5\x5A", 4);
            file.close();
            std::filesystem::remove(folder / "d.h5");
            const Result<SalvageReport> report = recover(folder / "c.h5", folder / "d.h5");
            if (!report.ok()) {
                ++told;
                continue;
            }
            Result<RecordingReader> reader = RecordingReader::open(folder / "d.h5");
            REQUIRE(reader.ok());
            if (report.value().frames_lost > 0) ++told;
            const Result<FrameBlock> joined = reader.value().read(0, frames_each);
            REQUIRE(joined.ok());
            const auto& values = std::get<std::vector<std::int32_t>>(joined.value().values);
            bool true_values = true;
            for (std::size_t i = 0; i < joined.value().size(); ++i) {
                const auto true_us =
                    static_cast<std::int32_t>((joined.value().stamps[i].counter - 100) * 1000);
                true_values = true_values && std::abs(values[i * 8 + 7] - true_us) <= 2;
            }
            CHECK(true_values);
        }
        CHECK(told > 0);
    }
}

TEST_CASE("the journal of several devices is not replayed as it is: it says what to do") {
    const ScratchFolder folder;
    write_journal(folder / "a.h5.journal", nullptr);
    const SystemClock clock;
    ReplaySource source(folder / "a.h5.journal", Pace::as_fast_as_possible, clock);
    const auto opened = source.open(std::chrono::milliseconds(0));
    REQUIRE(!opened.ok());
    CHECK(sentence(opened.problem()).find("footing recover") != std::string::npos);
}
