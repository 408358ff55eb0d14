#include <doctest/doctest.h>

#include <array>
#include <atomic>
#include <thread>

#include "acquisition/decode/text_line.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/serial_link.h"
#include "acquisition/pipeline/session.h"
#include "tests/decode/broken_bytes.h"
#include "tests/decode/collecting_sink.h"
#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"

using namespace footing;
using namespace std::chrono_literals;

namespace {

std::unique_ptr<LiveSource> source_on(const std::string& path, const Clock& clock,
                                      LiveSourceOptions options = {}) {
    return std::make_unique<LiveSource>(std::make_unique<SerialLink>(SerialPort{path, 115'200}, clock),
                                        std::move(options), clock);
}

Bytes text_of(std::uint32_t counter, std::size_t cell_count, TextChecksum checksum = TextChecksum::nmea) {
    std::vector<std::int32_t> counts(cell_count, static_cast<std::int32_t>(counter));
    return bytes_of(encode_text_line(counter, counter * 10'000, counts, checksum));
}

void poll_until_frames(FrameSource& source, CollectingSink& sink, std::uint64_t frames) {
    poll_until(source, sink, [&](SourceState) { return sink.stamps.size() >= frames; });
}

}  // namespace

TEST_CASE("Packets come over a real pty, whatever stands between them") {
    SystemClock clock;
    const Cable cable("footing_packets_");
    auto source = source_on(cable.path(), clock);
    cable.send(bytes_of("boot ok\r\n"));
    cable.send(bytes_of({0}));
    cable.send(stream_form(described(eight_cells())));
    cable.send(stream_form(cells(0)));
    const auto device = source->open(10s);
    REQUIRE(device.ok());
    CHECK(device.value().serial == test_serial);
    CollectingSink sink;
    for (std::uint32_t i = 1; i < 2000; ++i) {
        cable.send(i == 700 ? flip_bit(stream_form(cells(i)), 200) : stream_form(cells(i)));
        if (i % 20 == 0) REQUIRE(source->poll(sink, 0ms).ok());
    }
    poll_until_frames(*source, sink, 1999);
    CHECK(sink.gaps == std::vector{Gap{699, 1, 1'699'000, 1'701'000}});
    CHECK(sink.values[1000] == std::vector<double>(8, 1001.0));
    const LossCounters losses = source->losses();
    CHECK(losses.frames == 1999);
    CHECK(losses.lost == 1);
    CHECK(losses.damaged >= 1);
    CHECK(losses.foreign == 0);
}

TEST_CASE("Text lines are found out by themselves, and what is assumed is told") {
    for (const TextChecksum checksum : {TextChecksum::none, TextChecksum::nmea}) {
        SystemClock clock;
        const Cable cable("footing_text_");
        LiveSourceOptions options;
        std::vector<std::string> told;
        options.tell = [&](const std::string& line) { told.push_back(line); };
        auto source = source_on(cable.path(), clock, options);
        cable.send(bytes_of("# a board with eight cells\n"));
        for (std::uint32_t i = 0; i < 30; ++i) cable.send(text_of(i, 8, checksum));
        const auto device = source->open(10s);
        REQUIRE(device.ok());
        CHECK(device.value().rate_hz == 100.0);
        CHECK(values_per_frame(device.value().layout) == 8);
        CHECK(plate_sides(device.value().layout) == std::vector{PlateSide::left, PlateSide::right});
        REQUIRE(told.size() == 1);
        CHECK(told[0].find("8 cells") != std::string::npos);
        CollectingSink sink;
        for (std::uint32_t i = 30; i < 100; ++i) {
            if (i != 50) cable.send(text_of(i, 8, checksum));
        }
        poll_until(*source, sink,
                   [&](SourceState) { return !sink.stamps.empty() && sink.stamps.back().counter == 99; });
        CHECK(sink.gaps.size() == 1);
        CHECK(source->losses().lost == 1);
        CHECK(sink.values.back() == std::vector<double>(8, 99.0));
        CHECK(sink.stamps.back().device_time_us == 990'000);
    }
}

TEST_CASE("A damaged text line is counted, and so is one with too few cells") {
    SystemClock clock;
    const Cable cable("footing_damaged_text_");
    LiveSourceOptions options;
    options.layout = eight_cells(0);
    auto source = source_on(cable.path(), clock, options);
    cable.send(bytes_of("\n"));
    for (std::uint32_t i = 0; i < 20; ++i) cable.send(text_of(i, 8));
    const auto device = source->open(10s);
    REQUIRE(device.ok());
    CHECK(device.value().name == "test plates");
    CollectingSink sink;
    cable.send(flip_bit(text_of(20, 8), 17));
    cable.send(text_of(21, 7));
    cable.send(text_of(22, 8));
    poll_until(*source, sink,
               [&](SourceState) { return !sink.stamps.empty() && sink.stamps.back().counter == 22; });
    CHECK(source->losses().damaged == 2);
    CHECK(source->losses().lost == 2);
}

TEST_CASE("A board of two cells is a left and a right one; of four, one plate") {
    for (const std::size_t cell_count : {2U, 4U, 5U}) {
        SystemClock clock;
        const Cable cable("footing_few_cells_");
        auto source = source_on(cable.path(), clock);
        for (std::uint32_t i = 0; i < 20; ++i) cable.send(text_of(i, cell_count));
        const auto device = source->open(10s);
        REQUIRE(device.ok());
        CHECK(values_per_frame(device.value().layout) == cell_count);
        CHECK(device.value().layout.plates.size() == (cell_count == 2 ? 2 : 1));
    }
}

// R7
TEST_CASE("Unplugged and plugged in again, the same goes on after one gap, many times") {
    SystemClock clock;
    Cable cable("footing_replug_");
    auto source = source_on(cable.path(), clock);
    cable.send(stream_form(described(eight_cells())));
    cable.send(stream_form(described(eight_cells())));
    REQUIRE(source->open(10s).ok());
    CollectingSink sink;
    std::uint32_t counter = 0;
    for (int cycle = 0; cycle < 5; ++cycle) {
        const std::uint64_t before = sink.stamps.size();
        cable.send(bytes_of({0}));
        for (int i = 0; i < 50; ++i) cable.send(stream_form(cells(counter++)));
        poll_until_frames(*source, sink, before + 50);
        cable.unplug();
        poll_until(*source, sink, [](SourceState state) { return state == SourceState::waiting; });
        counter += 100;
        cable.plug_in();
    }
    cable.send(bytes_of({0}));
    cable.send(stream_form(cells(counter)));
    poll_until_frames(*source, sink, 251);
    CHECK(sink.gaps.size() == 5);
    for (const Gap& gap : sink.gaps) CHECK(gap.frames_missing == 100);
    CHECK(source->losses().lost == 500);
    CHECK(source->losses().damaged == 0);
    // Another device on the same cable is not ours.
    cable.send(stream_form(cells(counter + 1, 99)));
    cable.send(stream_form(cells(counter + 1)));
    poll_until_frames(*source, sink, 252);
    CHECK(source->losses().foreign == 1);
}

// R8
TEST_CASE("A serial port that another program holds is named") {
    SystemClock clock;
    const Cable cable("footing_taken_");
    SerialLink first({cable.path(), 115'200}, clock);
    REQUIRE(first.open().ok());
    SerialLink second({cable.path(), 115'200}, clock);
    const auto refused = second.open();
    REQUIRE_FALSE(refused.ok());
    CHECK(sentence(refused.problem()) ==
          cable.path() + ": another program holds this port; close it, or choose another port");
    first.close();
    CHECK(second.open().ok());
}

TEST_CASE("A path that is no serial port, no path at all, and a speed that the port lacks are told apart") {
    SystemClock clock;
    SerialLink missing({"/dev/footing-no-such-port", 115'200}, clock);
    CHECK(missing.open().problem().what == "there is no such port");
    SerialLink null({"/dev/null", 115'200}, clock);
    CHECK(null.open().problem().what == "this is not a serial port");
    const Cable cable("footing_speed_");
    SerialLink odd({cable.path(), 123'457}, clock);
    const auto refused = odd.open();
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().what.find("123457 baud") != std::string::npos);
    SerialLink fast({cable.path(), 921'600}, clock);
    CHECK(fast.open().ok());
}

TEST_CASE("A session on a real pty: its own thread, both queues, stopped while frames come") {
    SystemClock clock;
    const Cable cable("footing_session_");
    Session session(source_on(cable.path(), clock));
    std::atomic<bool> stop{false};
    std::atomic<std::uint32_t> sent{0};
    std::thread device([&] {
        for (std::uint32_t i = 0; !stop; ++i) {
            if (i % 100 == 0) cable.send(stream_form(described(eight_cells(), i)));
            cable.send(stream_form(cells(i)));
            sent = i;
            std::this_thread::sleep_for(200us);
        }
    });
    REQUIRE(session.start(10s).ok());
    CollectingSink recorder;
    CollectingSink screen;
    while (recorder.stamps.size() < 1000) {
        session.recorder_queue().drain(recorder);
        session.live_queue().drain(screen);
        std::this_thread::sleep_for(1ms);
    }
    CHECK(session.state() == SessionState::running);
    session.stop();
    stop = true;
    device.join();
    session.recorder_queue().drain(recorder);
    session.live_queue().drain(screen);
    CHECK(session.state() == SessionState::finished);
    CHECK(recorder.gaps.empty());
    CHECK(recorder.stamps == screen.stamps);
    CHECK(session.losses().frames == recorder.stamps.size());
    CHECK(session.losses() == LossCounters{.frames = recorder.stamps.size()});
}
