#include <doctest/doctest.h>

#include <atomic>
#include <thread>

#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "tests/decode/collecting_sink.h"
#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"

using namespace footing;
using namespace std::chrono_literals;

namespace {

struct Plates {
    Plates() {
        {
            UdpLink probe({{"127.0.0.1", 0}}, clock);
            must(probe.open().ok());
            port = probe.local_port();
        }
        auto udp = std::make_unique<UdpLink>(UdpLinkOptions{{"127.0.0.1", port}}, clock);
        link = udp.get();
        source = std::make_unique<LiveSource>(std::move(udp), LiveSourceOptions{}, clock);
        sender = std::make_unique<UdpSender>(port);
        std::atomic<bool> heard{false};
        std::thread device([&] {
            for (; !heard; std::this_thread::sleep_for(5ms)) sender->send(described(eight_cells()));
        });
        opened = source->open(10s).ok();
        heard = true;
        device.join();
    }

    SystemClock clock;
    std::uint16_t port = 0;
    UdpLink* link = nullptr;
    std::unique_ptr<UdpSender> sender;
    std::unique_ptr<LiveSource> source;
    CollectingSink sink;
    bool opened = false;
};

}  // namespace

// tests/soak/flood.cpp does it at 100,000 packets a second with the program.
TEST_CASE(
    "More than the system can keep from strangers costs the device no frame, and is counted as theirs "
    "(R21)") {
    Plates plates;
    REQUIRE(plates.opened);
    // One turn, so that the device has its own way in.
    REQUIRE(plates.source->poll(plates.sink, 0ms).ok());
    const UdpSender stranger(plates.port);
    const std::vector<std::byte> garbage(200, std::byte{0x5A});
    std::uint64_t strange = 0;
    for (std::uint32_t i = 0; i < 300; ++i) {
        // Nobody takes anything meanwhile: far more than any buffer holds.
        for (int k = 0; k < 100; ++k, strange += 3) {
            stranger.send(garbage);
            stranger.send(cells(i + 7000));
            stranger.send(described(eight_cells(test_serial + 1)));
        }
        plates.sender->send(cells(i));
    }
    poll_until(*plates.source, plates.sink, [&](SourceState) { return plates.sink.stamps.size() >= 300; });
    // How many were dropped comes with the next that is kept.
    poll_until(*plates.source, plates.sink, [&](SourceState) {
        stranger.send(garbage);
        ++strange;
        return plates.source->losses().foreign + 200 > strange;
    });
    const LossCounters losses = plates.source->losses();
    CHECK(losses.frames == 300);
    CHECK(losses.lost == 0);
    CHECK(losses.socket_overflow == 0);
    CHECK(losses.damaged == 0);
    CHECK(losses.foreign <= strange);
    CHECK(plates.link->foreign_overflow() > 1000);
    CHECK(plates.sink.gaps.empty());
}

TEST_CASE("The device's own way in does not open the port to a second program (R8)") {
    Plates plates;
    REQUIRE(plates.opened);
    REQUIRE(plates.source->poll(plates.sink, 0ms).ok());
    const int other = ::socket(AF_INET, SOCK_DGRAM, 0);
    const int on = 1;
    ::setsockopt(other, SOL_SOCKET, SO_REUSEPORT, &on, sizeof on);
    ::setsockopt(other, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(plates.port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    CHECK(::bind(other, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0);
    ::close(other);
}

TEST_CASE("A device that comes back with another port after a silence has its own way in again") {
    Plates plates;
    REQUIRE(plates.opened);
    plates.sender->send(cells(1));
    poll_until(*plates.source, plates.sink, [&](SourceState) { return plates.sink.stamps.size() == 1; });
    std::this_thread::sleep_for(1100ms);
    const UdpSender again(plates.port);
    again.send(cells(2));
    poll_until(*plates.source, plates.sink, [&](SourceState) { return plates.sink.stamps.size() == 2; });
    const UdpSender stranger(plates.port);
    for (std::uint32_t i = 3; i < 200; ++i) {
        for (int k = 0; k < 300; ++k) stranger.send(cells(k));
        again.send(cells(i));
    }
    poll_until(*plates.source, plates.sink, [&](SourceState) { return plates.sink.stamps.size() == 199; });
    CHECK(plates.source->losses().lost == 0);
    CHECK(plates.source->losses().socket_overflow == 0);
}
