#include <doctest/doctest.h>

#include <atomic>
#include <random>
#include <thread>

#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "tests/decode/broken_bytes.h"
#include "tests/decode/collecting_sink.h"
#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"

using namespace footing;
using namespace std::chrono_literals;

namespace {

/// A source on a free port of loopback, and what it hands out. The port is taken beforehand, so that a sender
/// may send before open() without anything getting lost.
struct Listener {
    explicit Listener(LiveSourceOptions options = {}) {
        UdpLinkOptions free_port{{"127.0.0.1", 0}};
        UdpLink probe(free_port, clock);
        REQUIRE(probe.open().ok());
        port = probe.local_port();
        probe.close();
        options.tell = [this](const std::string& sentence_told) { told.push_back(sentence_told); };
        source = std::make_unique<LiveSource>(
            std::make_unique<UdpLink>(UdpLinkOptions{{"127.0.0.1", port}}, clock), std::move(options), clock);
    }

    /// Opens while `introduce` is sent again and again, as a device does.
    Result<DeviceDescription> open(const UdpSender& sender, const Bytes& introduce) {
        std::atomic<bool> heard{false};
        std::thread device([&] {
            while (!heard) {
                sender.send(introduce);
                std::this_thread::sleep_for(5ms);
            }
        });
        auto opened = source->open(10s);
        heard = true;
        device.join();
        return opened;
    }

    void poll_until_frames(std::uint64_t frames) {
        poll_until(*source, sink, [&](SourceState) { return sink.stamps.size() >= frames; });
    }

    SystemClock clock;
    std::uint16_t port = 0;
    std::vector<std::string> told;
    std::unique_ptr<LiveSource> source;
    CollectingSink sink;
};

}  // namespace

TEST_CASE("Frames of cells come over a real socket with their values, times and trigger") {
    Listener listener;
    const UdpSender sender(listener.port);
    const auto device = listener.open(sender, described(eight_cells()));
    REQUIRE(device.ok());
    CHECK(device.value().name == "test plates");
    CHECK(device.value().layout.plates.size() == 2);
    for (std::uint32_t i = 0; i < 500; ++i) sender.send(cells(i));
    listener.poll_until_frames(500);
    CHECK(listener.sink.gaps.empty());
    for (std::uint32_t i = 0; i < 500; ++i) {
        const FrameStamp& stamp = listener.sink.stamps[i];
        CHECK(stamp.counter == i);
        CHECK(stamp.device_time_us == 1'000'000 + i * 1000);
        CHECK(stamp.inputs == (i % 100 == 0 ? trigger_bit : 0));
        CHECK(stamp.host_time_ns > 0);
        CHECK(listener.sink.values[i] == std::vector<double>(8, i));
    }
    CHECK(listener.source->losses() == LossCounters{.frames = 500});
    CHECK(listener.source->name() == "UDP 127.0.0.1:" + std::to_string(listener.port));
}

TEST_CASE("What comes in one turn with the description is not lost") {
    Listener listener;
    std::atomic<bool> stop{false};
    const UdpSender sender(listener.port);
    // Frames flow all the time; the description comes amid them.
    std::thread device([&] {
        for (std::uint32_t i = 0; !stop; ++i) {
            if (i % 50 == 25) sender.send(described(eight_cells(), i));
            sender.send(cells(i));
            if (i % 20 == 0) std::this_thread::sleep_for(1ms);
        }
    });
    REQUIRE(listener.source->open(10s).ok());
    listener.poll_until_frames(2000);
    stop = true;
    device.join();
    CHECK(listener.sink.gaps.empty());
    CHECK(listener.source->losses().lost == 0);
    CHECK(listener.sink.stamps.front().counter % 50 == 25);  // the very frame that follows the description
}

TEST_CASE("A mat's frames are put together from bands over a real socket") {
    Listener listener;
    const UdpSender sender(listener.port);
    const auto device = listener.open(sender, described(small_mat()));
    REQUIRE(device.ok());
    CHECK(device.value().layout.kind == FrameKind::grid);
    const std::vector<std::uint16_t> image(48 * 48, 321);
    for (std::uint32_t i = 0; i < 100; ++i) {
        auto bands = encode_grid_bands(test_head(i), 48, 48, image);
        if (i == 40) bands.erase(bands.begin() + 1);
        for (const Bytes& band : bands) sender.send(band);
    }
    listener.poll_until_frames(99);
    CHECK(listener.sink.values[0].size() == 48 * 48);
    CHECK(listener.sink.values[98] == std::vector<double>(48 * 48, 321.0));
    const LossCounters losses = listener.source->losses();
    CHECK(losses.frames == 99);
    CHECK(losses.lost == 1);
    CHECK(losses.incomplete_grids == 1);
    CHECK(listener.sink.gaps == std::vector{Gap{39, 1, 1'039'000, 1'041'000}});
}

TEST_CASE("Components come as numbers") {
    Listener listener;
    const UdpSender sender(listener.port);
    DeviceDescription device = eight_cells();
    device.layout.kind = FrameKind::components;
    for (Plate& plate : device.layout.plates) plate.cells.clear();
    REQUIRE(listener.open(sender, described(device)).ok());
    const std::array<float, 12> components = {1.5F, 2.5F, 800.25F, -1.0F, 0.125F, 0.0F,
                                              0.0F, 0.0F, 200.0F,  1.0F,  2.0F,   3.0F};
    sender.send(encode_components(test_head(1), components));
    listener.poll_until_frames(1);
    CHECK(listener.sink.values[0] == std::vector<double>(components.begin(), components.end()));
}

TEST_CASE("Foreign senders, foreign devices and garbage are dropped and counted, each in its own place") {
    Listener listener;
    const UdpSender sender(listener.port);
    const UdpSender foreign(listener.port);
    REQUIRE(listener.open(sender, described(eight_cells())).ok());
    std::mt19937 chance(1);
    for (std::uint32_t i = 0; i < 200; ++i) {
        sender.send(cells(i));
        foreign.send(cells(i + 5000));             // the same serial number from elsewhere
        foreign.send(described(eight_cells(99)));  // another device from elsewhere
        sender.send(cells(i, 99));                 // another device through the same sender
        Bytes garbage(chance() % 1500);
        for (std::byte& byte : garbage) byte = static_cast<std::byte>(chance());
        foreign.send(garbage);
        sender.send(flip_bit(cells(i), chance() % 400));  // damaged on its way
        sender.send(Bytes(9000, std::byte{1}));           // longer than any packet
        if (i % 10 == 9) listener.poll_until_frames(i + 1);
    }
    listener.poll_until_frames(200);
    poll_until(*listener.source, listener.sink,
               [&](SourceState) { return listener.source->losses().damaged >= 400; });
    const LossCounters losses = listener.source->losses();
    CHECK(losses.frames == 200);
    CHECK(losses.foreign == 800);
    CHECK(losses.damaged == 400);
    CHECK(losses.lost == 0);
    CHECK(losses.duplicated == 0);
    CHECK(listener.sink.gaps.empty());
}

TEST_CASE("Frames that do not fit the layout are damage, not data") {
    Listener listener;
    const UdpSender sender(listener.port);
    REQUIRE(listener.open(sender, described(eight_cells())).ok());
    sender.send(cells(1));
    sender.send(encode_cells(test_head(2), std::array<std::int32_t, 7>{}));
    sender.send(encode_components(test_head(3), std::array<float, 12>{}));
    sender.send(encode_grid_bands(test_head(4), 2, 2, std::vector<std::uint16_t>(4)).at(0));
    sender.send(cells(5));
    listener.poll_until_frames(1);
    poll_until(*listener.source, listener.sink,
               [&](SourceState) { return listener.sink.stamps.size() == 2; });
    CHECK(listener.source->losses().damaged == 3);
    CHECK(listener.source->losses().lost == 3);
}

// R2: loss at the tail leaves no gap, so silence must show.
TEST_CASE("A device that falls silent shows as waiting, and as running when it is back") {
    Listener listener;
    auto sender = std::make_unique<UdpSender>(listener.port);
    REQUIRE(listener.open(*sender, described(eight_cells())).ok());
    sender->send(cells(1));
    poll_until(*listener.source, listener.sink, [&](SourceState state) {
        return state == SourceState::running && !listener.sink.stamps.empty();
    });
    const auto last_frame_ns = listener.sink.stamps.back().host_time_ns;
    poll_until(*listener.source, listener.sink,
               [](SourceState state) { return state == SourceState::waiting; });
    CHECK(listener.clock.steady_ns() - last_frame_ns > 100'000'000);
    sender->send(cells(200));
    poll_until(*listener.source, listener.sink,
               [](SourceState state) { return state == SourceState::running; });
    listener.poll_until_frames(2);
    CHECK(listener.sink.gaps.size() == 1);
    CHECK(listener.source->losses().lost == 198);
    // After a second of silence the device may come back with another port, as one that restarts does.
    std::this_thread::sleep_for(1100ms);
    sender = std::make_unique<UdpSender>(listener.port);
    sender->send(cells(0));
    listener.poll_until_frames(3);
    REQUIRE(listener.sink.gaps.size() == 2);
    CHECK(listener.sink.gaps[1].frames_missing == 0);
    CHECK(listener.source->losses().foreign == 0);
}

TEST_CASE("A port that is taken is named, with what to do (R8)") {
    SystemClock clock;
    UdpLink first({{"127.0.0.1", 0}}, clock);
    REQUIRE(first.open().ok());
    UdpLink second({{"127.0.0.1", first.local_port()}}, clock);
    const auto refused = second.open();
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().kind == ProblemKind::device_failed);
    CHECK(sentence(refused.problem()) ==
          "UDP 127.0.0.1:" + std::to_string(first.local_port()) +
              ": another program already listens on this port; close it, or choose another port");
    UdpLink elsewhere({{"192.0.2.1", 9750}}, clock);  // TEST-NET-1 (RFC 5737): no address of any computer
    CHECK_FALSE(elsewhere.open().ok());
    UdpLink nowhere({{"no.such.host.invalid", 9750}}, clock);  // reserved (RFC 2606)
    CHECK_FALSE(nowhere.open().ok());
}

// R3
TEST_CASE("The receive buffer that was granted is read back, and a small one is told of") {
    SystemClock clock;
    UdpLink link({{"127.0.0.1", 0}}, clock);
    CHECK(link.granted_receive_buffer() == 0);
    REQUIRE(link.open().ok());
    CHECK(link.granted_receive_buffer() > 0);
    CHECK(link.warning().empty() == (link.granted_receive_buffer() >= least_comfortable_receive_buffer));
    UdpLink small({{"127.0.0.1", 0}, 16'384}, clock);
    REQUIRE(small.open().ok());
    CHECK(small.granted_receive_buffer() < least_comfortable_receive_buffer);
    CHECK(small.warning().find(std::to_string(small.granted_receive_buffer() >> 10U) + " kB") !=
          std::string::npos);
}

TEST_CASE("Datagrams that the operating system drops are counted") {
    SystemClock clock;
    UdpLinkOptions options{{"127.0.0.1", 0}, 4096};
    auto link = std::make_unique<UdpLink>(options, clock);
    UdpLink& udp = *link;
    REQUIRE(link->open().ok());
    const UdpSender sender(udp.local_port());
    for (std::uint32_t i = 0; i < 2000; ++i) sender.send(cells(i));
    struct Counter final : PieceTaker {
        void take_piece(const Piece&) override { ++pieces; }
        std::uint64_t pieces = 0;
    } counter;
    for (int turn = 0; turn < 100; ++turn) REQUIRE(udp.receive(counter, 0ms).ok());
    sender.send(cells(2000));  // the count comes with the next datagram that is kept
    while (udp.overflow() == 0) REQUIRE(udp.receive(counter, 5ms).ok());
    CHECK(counter.pieces + udp.overflow() == 2001);
}

TEST_CASE("Nothing heard, nothing understood and nobody introduced are three different troubles") {
    Listener quiet;
    const auto nothing = quiet.source->open(30ms);
    REQUIRE_FALSE(nothing.ok());
    CHECK(nothing.problem().kind == ProblemKind::device_failed);
    CHECK(nothing.problem().what.find("nothing was heard for 0.03 s") != std::string::npos);
    // Opened in turns, the line stays open, and the time waited is that of all turns.
    std::this_thread::sleep_for(30ms);
    const auto again = quiet.source->open(30ms);
    REQUIRE_FALSE(again.ok());
    CHECK(again.problem().what.find("nothing was heard for 0.03 s") == std::string::npos);

    const auto open_while_sending = [](Listener& listener, const Bytes& bytes) {
        const UdpSender sender(listener.port);
        std::atomic<bool> stop{false};
        std::thread device([&] {
            while (!stop) {
                sender.send(bytes);
                std::this_thread::sleep_for(1ms);
            }
        });
        auto opened = listener.source->open(300ms);
        stop = true;
        device.join();
        REQUIRE_FALSE(opened.ok());
        return opened.problem();
    };
    Listener puzzled;
    CHECK(open_while_sending(puzzled, bytes_of("hello")).what.find("not from plates") != std::string::npos);
    Listener unintroduced;
    CHECK(open_while_sending(unintroduced, cells(1)).what.find("did not describe itself") !=
          std::string::npos);
    Listener misled;
    const Problem bad = open_while_sending(misled, encode_description(test_head(0), R"({"name": "x"})"));
    CHECK(bad.kind == ProblemKind::bad_input);
    CHECK(bad.what.find("no \"serial\"") != std::string::npos);
    Listener contradicted;
    CHECK(open_while_sending(contradicted,
                             encode_description(test_head(0, 5), description_json(eight_cells(6))))
              .what.find("serial number 6") != std::string::npos);
}

TEST_CASE("With a layout file a device need not introduce itself") {
    LiveSourceOptions options;
    options.layout = eight_cells(0);
    Listener listener(options);
    const UdpSender sender(listener.port);
    const auto device = listener.open(sender, cells(3));
    REQUIRE(device.ok());
    CHECK(device.value().serial == test_serial);
    sender.send(cells(4));
    poll_until(*listener.source, listener.sink, [&](SourceState) {
        return !listener.sink.stamps.empty() && listener.sink.stamps.back().counter == 4;
    });
    CHECK(listener.sink.stamps.front().counter == 3);
}
