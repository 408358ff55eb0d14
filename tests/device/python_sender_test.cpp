#include <doctest/doctest.h>

#include <sys/wait.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "tests/decode/collecting_sink.h"
#include "tests/device/real_lines.h"
#include "tests/device/streamed_trial.h"
#include "tests/support/page_block.h"

using namespace footing;
using namespace std::chrono_literals;

namespace {

constexpr const char* python = "/usr/bin/python3";

/// The program that stands on the protocol's page: a sender that shares no code with ours.
std::string sender_of_the_page() {
    return test::block_of_page("docs/device_protocol.md", "python");
}

std::filesystem::path written(const std::string& name, const std::string& text) {
    const auto path = std::filesystem::temp_directory_path() / (name + std::to_string(::getpid()));
    std::ofstream(path) << text;
    return path;
}

}  // namespace

// Source: docs/device_protocol.md itself, with Python's struct and socket.
TEST_CASE("The sender on the protocol's page streams into a live source") {
    if (::access(python, X_OK) != 0) {
        MESSAGE("skipped: no python3 here");
        return;
    }
    SystemClock clock;
    UdpLink probe({{"127.0.0.1", 0}}, clock);
    REQUIRE(probe.open().ok());
    const std::uint16_t port = probe.local_port();
    probe.close();
    LiveSource source(std::make_unique<UdpLink>(UdpLinkOptions{{"127.0.0.1", port}}, clock), {}, clock);

    const auto script = written("footing_sender_", sender_of_the_page());
    const std::string port_text = std::to_string(port);
    const pid_t child = ::fork();
    if (child == 0) {
        ::execl(python, python, script.c_str(), "127.0.0.1", port_text.c_str(), "4", nullptr);
        ::_exit(127);
    }
    const auto device = source.open(10s);
    REQUIRE(device.ok());
    CHECK(device.value().name == "Python plates");
    CHECK(device.value().serial == 4711);
    CHECK(device.value().newtons_per_count == 0.001);
    CHECK(device.value().layout.plates[1].cells[1] == PointM{0.12, 0.22});
    CollectingSink sink;
    poll_until(source, sink,
               [&](SourceState) { return !sink.stamps.empty() && sink.stamps.back().counter == 3999; });
    int status = 0;
    ::waitpid(child, &status, 0);
    CHECK(status == 0);
    std::filesystem::remove(script);
    CHECK(source.losses() == LossCounters{.frames = sink.stamps.size()});
    for (std::size_t i = 0; i < sink.stamps.size(); ++i) {
        const auto counter = static_cast<double>(sink.stamps[i].counter);
        const double left = 0.5 + 0.2 * std::sin(M_PI * counter / 1000.0);
        REQUIRE(sink.stamps[i].device_time_us == sink.stamps[i].counter * 1000);
        REQUIRE(sink.values[i][0] == doctest::Approx(left * 200'000.0).epsilon(1e-5));
        REQUIRE(sink.values[i][7] == doctest::Approx((1.0 - left) * 200'000.0).epsilon(1e-5));
    }
}

TEST_CASE("The COBS function on the protocol's page is read by our stream") {
    if (::access(python, X_OK) != 0) {
        MESSAGE("skipped: no python3 here");
        return;
    }
    // The page's functions without its network part, writing packets of growing size to standard output.
    std::string text = sender_of_the_page();
    text = text.substr(0, text.find("corners = "));
    text = text.substr(0, text.find("host, port")) + text.substr(text.find("\n", text.find("host, port")));
    text +=
        // As check_streamed_trial() expects it.
        "for n in range(1, 257):\n"
        "    values = [(i * 7919) % 65536 * (i % 3) for i in range(n)]\n"
        "    sys.stdout.buffer.write(cobs(packet(CELLS, n, 0, 0, n, struct.pack('<%di' % n, *values))))\n"
        "for k in range(250, 512):\n"
        "    payload = b'\\0' + b'x' * k + b'\\0y'\n"
        "    sys.stdout.buffer.write(cobs(packet(DESCRIPTION, k, 0, 0, len(payload), payload)))\n";
    const auto script = written("footing_cobs_", text);
    FILE* pipe = ::popen((std::string(python) + " " + script.string()).c_str(), "r");
    REQUIRE(pipe != nullptr);
    Bytes bytes;
    for (int letter = std::fgetc(pipe); letter != EOF; letter = std::fgetc(pipe))
        bytes.push_back(static_cast<std::byte>(letter));
    CHECK(::pclose(pipe) == 0);
    std::filesystem::remove(script);
    check_streamed_trial(bytes);
}
