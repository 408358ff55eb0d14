// A recording is played over a real line and recorded again: the second recording holds the same frames,
// counters, device times, inputs and gaps as the first.

#include <doctest/doctest.h>

#include <atomic>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/play_transmission.h"
#include "acquisition/device/serial_link.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/frame/clock.h"
#include "acquisition/record/recording_writer.h"
#include "acquisition/record/replay_source.h"
#include "tests/support/child_process.h"
#include "tests/support/unstopped.h"

using namespace footing;
using namespace footing::test;
using std::chrono::milliseconds;

namespace {

/// Frames and gaps as a consumer of a source sees them.
struct Kept final : FrameSink {
    struct Frame {
        FrameStamp stamp;
        std::vector<double> values;
    };
    void take_frame(const FrameView& frame) override {
        Frame kept{frame.stamp, {}};
        std::visit([&](const auto& span) { kept.values.assign(span.begin(), span.end()); }, frame.values);
        frames.push_back(std::move(kept));
    }
    void take_gap(const Gap& gap) override { gaps.push_back(gap); }
    std::vector<Frame> frames;
    std::vector<Gap> gaps;
};

Kept all_of(FrameSource& source) {
    Kept kept;
    for (auto state = SourceState::running; state != SourceState::finished;) {
        const auto polled = source.poll(kept, milliseconds(0));
        REQUIRE_MESSAGE(polled.ok(), sentence(polled.problem()));
        state = polled.value();
    }
    return kept;
}

Kept replayed(const std::string& path) {
    ReplaySource source(path, Pace::as_fast_as_possible, system_clock);
    const auto device = source.open(milliseconds(0));
    REQUIRE_MESSAGE(device.ok(), sentence(device.problem()));
    return all_of(source);
}

/// Writes frames to a recording; those in `lost` are left out and become gaps.
void write_recording(const std::string& path, const DeviceDescription& device,
                     const std::vector<FrameBlock>& blocks, const std::vector<Gap>& gaps) {
    RecordingInfo info;
    info.device = device;
    info.zone = "UTC";
    info.gaps = gaps;
    if (!gaps.empty()) info.outcome = RecordingOutcome::lossy;
    for (const Gap& gap : gaps) info.losses.lost += gap.frames_missing;
    auto writer = RecordingWriter::create(path, info);
    REQUIRE_MESSAGE(writer.ok(), sentence(writer.problem()));
    for (const FrameBlock& block : blocks) {
        const Outcome done = writer.value().append(block);
        REQUIRE_MESSAGE(done.ok(), sentence(done.problem()));
        info.losses.frames += block.size();
    }
    const Outcome closed = writer.value().close(info);
    REQUIRE_MESSAGE(closed.ok(), sentence(closed.problem()));
}

/// The simulated golfer's frames, some of them lost, as a recording.
void record_golfer(const std::string& path, FrameKind kind) {
    EmulatedDeviceSettings settings;
    settings.kind = kind;
    settings.rows = 24;
    settings.columns = 36;
    settings.rate_hz = 200.0;
    settings.swings = 1;
    settings.seed = 42;
    settings.first_counter = 0xFFFFFF00U;  // the 32-bit counter wraps on the way
    EmulatedDevice device(settings);
    FrameBlock block;
    block.values_per_frame = values_per_frame(device.description().layout);
    if (kind == FrameKind::grid) {
        block.values = std::vector<std::uint16_t>{};
    } else {
        block.values = std::vector<std::int32_t>{};
    }
    std::vector<Gap> gaps;
    FrameStamp before;
    for (std::uint64_t index = 0; index < 1500; ++index) {
        const auto frame = device.next();
        REQUIRE(frame);
        const bool lost = index == 100 || (index >= 300 && index < 307) || (index >= 700 && index < 900);
        if (lost) continue;
        if (!block.stamps.empty() && frame->stamp.counter != before.counter + 1) {
            gaps.push_back({before.counter, frame->stamp.counter - before.counter - 1, before.device_time_us,
                            frame->stamp.device_time_us});
        }
        before = frame->stamp;
        FrameStamp stamp = frame->stamp;
        stamp.inputs = index % 250 == 0 ? trigger_bit : std::uint16_t{0};
        block.stamps.push_back(stamp);
        std::visit(
            [&](const auto& values) {
                using Values = std::vector<std::remove_cvref_t<decltype(values[0])>>;
                if (auto* all = std::get_if<Values>(&block.values)) {
                    all->insert(all->end(), values.begin(), values.end());
                }
            },
            frame->values);
    }
    REQUIRE(gaps.size() == 3);
    write_recording(path, device.description(), {block}, gaps);
}

struct Heard {
    DeviceDescription device;
    Kept kept;
    LossCounters losses;
    PlayCount played;
};

/// Plays the file to `line` from another thread while `source` listens, until everything has come.
Heard listen(const std::string& path, EmulatedLine& line, LiveSource& source, double speed) {
    ReplaySource scan(path, Pace::as_fast_as_possible, system_clock);
    const auto device = scan.open(milliseconds(0));
    REQUIRE(device.ok());
    const auto form = PlayWireForm::choose(device.value(), scan);
    REQUIRE_MESSAGE(form.ok(), sentence(form.problem()));
    ReplaySource frames(path, Pace::as_fast_as_possible, system_clock);
    REQUIRE(frames.open(milliseconds(0)).ok());

    std::optional<Result<PlayCount>> played;
    std::atomic<bool> over{false};
    std::thread player([&] {
        played = play(frames, form.value(), line, speed, never_stop);
        over = true;
    });
    Heard heard;
    auto opened = source.open(milliseconds(20000));
    if (opened) heard.device = opened.value();
    int quiet = 0;
    while (opened && quiet < 3) {
        const std::size_t before = heard.kept.frames.size();
        const auto state = source.poll(heard.kept, milliseconds(100));
        if (!state) break;
        quiet = over && heard.kept.frames.size() == before ? quiet + 1 : 0;
    }
    player.join();
    REQUIRE_MESSAGE(opened.ok(), sentence(opened.problem()));
    REQUIRE_MESSAGE(played->ok(), sentence(played->problem()));
    heard.losses = source.losses();
    heard.played = played->value();
    return heard;
}

Heard over_udp(const std::string& path, double speed) {
    const int port = free_udp_port();
    UdpLinkOptions options;
    options.bind = {"127.0.0.1", static_cast<std::uint16_t>(port)};
    auto link = std::make_unique<UdpLink>(options, system_clock);
    LiveSource source(std::move(link), {}, system_clock);
    auto line = open_udp_line("127.0.0.1:" + std::to_string(port));
    REQUIRE(line.ok());
    return listen(path, *line.value(), source, speed);
}

/// The same up to where the unwrapped counter starts.
void check_same(const Kept& first, const Kept& second) {
    REQUIRE(second.frames.size() == first.frames.size());
    const std::uint64_t shift = first.frames[0].stamp.counter - second.frames[0].stamp.counter;
    CHECK(static_cast<std::uint32_t>(shift) == 0);
    std::size_t different = 0;
    for (std::size_t i = 0; i < first.frames.size(); ++i) {
        const Kept::Frame& a = first.frames[i];
        const Kept::Frame& b = second.frames[i];
        if (a.stamp.counter != b.stamp.counter + shift || a.stamp.device_time_us != b.stamp.device_time_us ||
            a.stamp.inputs != b.stamp.inputs || a.values != b.values) {
            ++different;
        }
    }
    CHECK(different == 0);
    REQUIRE(second.gaps.size() == first.gaps.size());
    for (std::size_t i = 0; i < first.gaps.size(); ++i) {
        Gap gap = second.gaps[i];
        gap.after_counter += shift;
        CHECK(gap == first.gaps[i]);
    }
}

}  // namespace

TEST_CASE("raw counts of cells: recorded, played over UDP, recorded again") {
    const ScratchFolder scratch;
    const std::string first = scratch / "first.h5";
    record_golfer(first, FrameKind::cells);
    const Kept original = replayed(first);
    const Heard heard = over_udp(first, 20.0);
    check_same(original, heard.kept);
    CHECK(heard.losses.lost == 208);
    CHECK(heard.losses.damaged == 0);
    CHECK(heard.played.frames == 1500 - 208);
    CHECK(heard.played.gaps == 3);
    CHECK(heard.played.frames_missing == 208);
    CHECK(heard.played.descriptions >= 5);
    CHECK(heard.device.serial == 100042);
    CHECK(heard.device.layout.plates.size() == 2);

    // Once more through a file, the device's own words with it.
    FrameBlock block;
    block.values_per_frame = heard.kept.frames[0].values.size();
    std::vector<std::int32_t> values;
    for (const Kept::Frame& frame : heard.kept.frames) {
        block.stamps.push_back(frame.stamp);
        for (const double value : frame.values) values.push_back(static_cast<std::int32_t>(value));
    }
    block.values = values;
    write_recording(scratch / "second.h5", heard.device, {block}, heard.kept.gaps);
    check_same(original, replayed(scratch / "second.h5"));
}

TEST_CASE("raw counts of a mat, in bands: the same") {
    const ScratchFolder scratch;
    record_golfer(scratch / "mat.h5", FrameKind::grid);
    const Heard heard = over_udp(scratch / "mat.h5", 10.0);
    check_same(replayed(scratch / "mat.h5"), heard.kept);
    REQUIRE(heard.device.layout.grid);
    CHECK(heard.device.layout.grid->rows == 24);
}

TEST_CASE("over a pty: the same") {
    const ScratchFolder scratch;
    record_golfer(scratch / "first.h5", FrameKind::cells);
    auto line = open_pty_line(scratch / "tty", 20.0);
    REQUIRE_MESSAGE(line.ok(), sentence(line.problem()));
    LiveSource source(std::make_unique<SerialLink>(SerialPort{scratch / "tty"}, system_clock), {},
                      system_clock);
    check_same(replayed(scratch / "first.h5"),
               listen(scratch / "first.h5", *line.value(), source, 20.0).kept);
}

namespace {

/// An import: frames of physical values.
void write_physical(const std::string& path, const DeviceDescription& device,
                    const std::vector<std::vector<double>>& frames) {
    FrameBlock block;
    block.values_per_frame = values_per_frame(device.layout);
    std::vector<double> values;
    for (std::size_t i = 0; i < frames.size(); ++i) {
        FrameStamp stamp;
        stamp.counter = i;
        stamp.device_time_us = i * 10'000;
        block.stamps.push_back(stamp);
        values.insert(values.end(), frames[i].begin(), frames[i].end());
    }
    block.values = values;
    write_recording(path, device, {block}, {});
}

}  // namespace

TEST_CASE("components of an import go as 32-bit reals, and a moment that is not known stays so") {
    const ScratchFolder scratch;
    DeviceDescription device;
    device.name = "imported";
    device.rate_hz = 100.0;
    device.layout.kind = FrameKind::components;
    device.layout.plates = {{"left", {-0.25, 0.0}, {}}, {"right", {0.25, 0.0}, {}}};
    std::vector<std::vector<double>> frames;
    for (int i = 0; i < 100; ++i) {
        frames.push_back(
            {1.1 * i, -2.2, 400.0 + i / 3.0, 12.3, std::nan(""), 0.1, 0, 0, 350.0 - i / 7.0, 1, 2, 3});
    }
    write_physical(scratch / "import.h5", device, frames);
    const Heard heard = over_udp(scratch / "import.h5", 10.0);
    CHECK(heard.device.layout.kind == FrameKind::components);
    REQUIRE(heard.kept.frames.size() == frames.size());
    for (std::size_t i = 0; i < frames.size(); ++i) {
        for (std::size_t k = 0; k < 12; ++k) {
            if (std::isnan(frames[i][k])) {
                CHECK(std::isnan(heard.kept.frames[i].values[k]));
            } else {
                CHECK(heard.kept.frames[i].values[k] ==
                      static_cast<double>(static_cast<float>(frames[i][k])));
            }
        }
    }
}

TEST_CASE("cells and elements in newtons go as counts of a stated part of a newton") {
    const ScratchFolder scratch;
    DeviceDescription device;
    device.name = "imported";
    device.rate_hz = 100.0;
    std::vector<std::vector<double>> frames;
    double tolerance_of_largest = 0.0;
    SUBCASE("cells") {
        device.layout.plates = {{"left", {-0.25, 0.0}, {{-0.1, 0.1}, {0.1, 0.1}}},
                                {"right", {0.25, 0.0}, {{0.0, 0.0}}}};
        for (int i = 0; i < 50; ++i) frames.push_back({200.0 + i / 3.0, -1.7 - i / 9.0, 512.3});
        tolerance_of_largest = 1e-9;
    }
    SUBCASE("mat") {
        device.layout.kind = FrameKind::grid;
        device.layout.grid = Grid{2, 3, 0.01, 0.01, {}};
        for (int i = 0; i < 50; ++i) frames.push_back({0.0, i / 3.0, 1.25, 40.0, 0.003, 17.0});
        tolerance_of_largest = 1.0 / 65535.0;
    }
    write_physical(scratch / "import.h5", device, frames);
    const Heard heard = over_udp(scratch / "import.h5", 10.0);
    REQUIRE(heard.device.newtons_per_count);
    const double newtons = *heard.device.newtons_per_count;
    CHECK(std::exp2(std::round(std::log2(newtons))) == newtons);
    double largest = 0.0;
    for (const auto& frame : frames) {
        for (const double value : frame) largest = std::max(largest, std::abs(value));
    }
    REQUIRE(heard.kept.frames.size() == frames.size());
    for (std::size_t i = 0; i < frames.size(); ++i) {
        for (std::size_t k = 0; k < frames[i].size(); ++k) {
            CHECK(std::abs(heard.kept.frames[i].values[k] * newtons - frames[i][k]) <=
                  largest * tolerance_of_largest);
        }
    }
}

TEST_CASE("loads that no device can send are refused before anything is sent") {
    const ScratchFolder scratch;
    DeviceDescription device;
    device.name = "imported";
    device.rate_hz = 100.0;
    device.layout.kind = FrameKind::grid;
    device.layout.grid = Grid{2, 2, 0.01, 0.01, {}};
    write_physical(scratch / "import.h5", device, {{1.0, 2.0, 3.0, 4.0}, {1.0, -2.0, 3.0, 4.0}});
    ReplaySource source(scratch / "import.h5", Pace::as_fast_as_possible, system_clock);
    REQUIRE(source.open(milliseconds(0)).ok());
    const auto form = PlayWireForm::choose(device, source);
    REQUIRE_FALSE(form.ok());
    CHECK(form.problem().kind == ProblemKind::bad_input);
    CHECK(sentence(form.problem()).find("frame 1") != std::string::npos);
}

TEST_CASE("a stop ends it early") {
    const ScratchFolder scratch;
    record_golfer(scratch / "first.h5", FrameKind::cells);
    ReplaySource scan(scratch / "first.h5", Pace::as_fast_as_possible, system_clock);
    const auto device = scan.open(milliseconds(0));
    REQUIRE(device.ok());
    const auto form = PlayWireForm::choose(device.value(), scan);
    ReplaySource frames(scratch / "first.h5", Pace::as_fast_as_possible, system_clock);
    REQUIRE(frames.open(milliseconds(0)).ok());
    auto line = open_udp_line("127.0.0.1:" + std::to_string(free_udp_port()));
    REQUIRE(line.ok());
    std::atomic<bool> stop{false};
    std::thread stopper([&] {
        std::this_thread::sleep_for(milliseconds(1000));
        stop = true;
    });
    const auto played = play(frames, form.value(), *line.value(), 1.0, stop);
    stopper.join();
    REQUIRE(played.ok());
    CHECK(played.value().end == PlayCount::End::stopped);
    CHECK(played.value().frames < 1000);  // the recording lasts 7.5 s
}
