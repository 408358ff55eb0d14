#include <doctest/doctest.h>
#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <sys/file.h>
#include <termios.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>

#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_encoder.h"
#include "acquisition/device/device_survey.h"
#include "acquisition/device/emulated_line.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/frame/clock.h"
#include "tests/support/child_process.h"
#include "tests/support/unstopped.h"

using namespace footing;
using namespace footing::test;
namespace fs = std::filesystem;
using std::chrono::milliseconds;
using std::chrono::seconds;
using std::chrono::steady_clock;

namespace {

/// Whether a program on this computer has bound this UDP port ("HOST:PORT"), as /proc/net/udp has it.
bool udp_port_is_bound(const std::string& host_and_port) {
    const int port = std::stoi(host_and_port.substr(host_and_port.rfind(':') + 1));
    return read_file("/proc/net/udp").find(fmt::format(":{:04X} 00000000:0000", port)) != std::string::npos;
}

/// A pty's near side stands for the serial port: a real tty, which real programs can hold.
struct Pty {
    Pty() {
        far_side = ::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
        REQUIRE(far_side >= 0);
        REQUIRE(::grantpt(far_side) == 0);
        REQUIRE(::unlockpt(far_side) == 0);
        char name[128] = {};
        REQUIRE(::ptsname_r(far_side, name, sizeof name) == 0);
        path = name;
    }
    ~Pty() { ::close(far_side); }
    Pty(const Pty&) = delete;
    Pty& operator=(const Pty&) = delete;
    int far_side = -1;
    std::string path;
};

/// A computer with one known USB port and one without a name, as the kernel lays such things out.
struct Computer {
    Computer() {
        const fs::path root = scratch.path();
        fs::create_directories(root / "dev/serial/by-id");
        fs::create_symlink(pty.path, root / "dev/ttyACM0");
        write_file((root / "dev/ttyUSB3").string(), "");
        write_file((root / "dev/ttyS0").string(), "");
        fs::create_symlink("../../ttyACM0", root / "dev/serial/by-id/usb-Invented_Plates_0007-if00");
        fs::create_directories(root / "sys/devices/usb1/1-2/1-2:1.0");
        write_file((root / "sys/devices/usb1/1-2/product").string(), "Plates 2\x1b[2J\n");
        write_file((root / "sys/devices/usb1/1-2/manufacturer").string(), "Invented\n");
        fs::create_directories(root / "sys/class/tty/ttyACM0");
        fs::create_symlink("../../../devices/usb1/1-2/1-2:1.0", root / "sys/class/tty/ttyACM0/device");
        folders = {root / "dev", root / "sys", "/proc"};
    }
    Pty pty;
    ScratchFolder scratch;
    SystemFolders folders;
};

SerialPortSeen port_until(const Computer& computer, SerialPortSeen::Use wanted) {
    const auto give_up = steady_clock::now() + seconds(20);
    while (true) {
        const auto ports = survey_serial_ports(computer.folders);
        REQUIRE(ports.size() == 2);
        if (ports[0].use == wanted || steady_clock::now() > give_up) return ports[0];
        std::this_thread::sleep_for(milliseconds(20));
    }
}

bool is_free(SerialPortSeen::Use use) {
    return use == SerialPortSeen::Use::free || use == SerialPortSeen::Use::not_known;
}

std::vector<std::byte> description_packet(std::uint32_t serial, const std::string& name) {
    DeviceDescription device;
    device.name = name;
    device.serial = serial;
    device.rate_hz = 500.0;
    device.layout.plates = {{"left", {-0.25, 0.0}, {{0.1, 0.1}, {-0.1, 0.1}}},
                            {"right", {0.25, 0.0}, {{0.0, 0.0}}}};
    return encode_description({serial, 0, 0, 0}, description_json(device));
}

}  // namespace

TEST_CASE("serial ports: the stable path, the maker's words, and nobody holds them") {
    const Computer computer;
    const auto ports = survey_serial_ports(computer.folders);
    REQUIRE(ports.size() == 2);
    CHECK(fs::path(ports[0].path).filename() == "usb-Invented_Plates_0007-if00");
    CHECK(fs::path(ports[0].node).filename() == "ttyACM0");
    CHECK(ports[0].words == "Invented Plates 2[2J");  // no escape sequence reaches the terminal
    CHECK(is_free(ports[0].use));
    CHECK(ports[1].path == ports[1].node);
    CHECK(ports[1].words.empty());
}

TEST_CASE("a port that another program has open is in use, and by whom") {
    const Computer computer;
    {
        const ChildProcess holder({"/bin/sh", "-c", "exec 3<>" + computer.pty.path + "; exec sleep 60"});
        const SerialPortSeen port = port_until(computer, SerialPortSeen::Use::in_use);
        CHECK(port.use == SerialPortSeen::Use::in_use);
        const bool named = port.holder.starts_with("sleep (") || port.holder.starts_with("sh (");
        CHECK_MESSAGE(named, port.holder);
    }
    const auto ports = survey_serial_ports(computer.folders);
    CHECK(is_free(ports[0].use));
}

TEST_CASE("a port that is locked is in use, even when the program's files cannot be seen") {
    const Computer computer;
    const int own = ::open(computer.pty.path.c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
    REQUIRE(own >= 0);
    CHECK(is_free(survey_serial_ports(computer.folders)[0].use));  // our own files are not looked at
    REQUIRE(::flock(own, LOCK_EX | LOCK_NB) == 0);
    const auto ports = survey_serial_ports(computer.folders);
    CHECK(ports[0].use == SerialPortSeen::Use::in_use);
    CHECK(ports[0].holder.empty());
    ::close(own);
}

TEST_CASE("a computer without serial ports or without such folders") {
    const ScratchFolder scratch;
    CHECK(survey_serial_ports({scratch / "dev", scratch / "sys", scratch / "proc"}).empty());
}

TEST_CASE("devices heard on the network") {
    const auto port = free_udp_port();
    std::atomic<bool> over{false};
    std::thread sender([&] {
        auto one = open_udp_line("127.0.0.1:" + std::to_string(port));
        auto other = open_udp_line("127.0.0.1:" + std::to_string(port));
        const std::vector<std::int32_t> counts(3, 7);
        while (!over) {
            (void)one.value()->send(description_packet(11, "plates of the test"), never_stop);
            (void)one.value()->send(encode_cells({11, 1, 0, 0}, counts), never_stop);
            (void)other.value()->send(encode_cells({12, 1, 0, 0}, counts), never_stop);
            (void)other.value()->send(std::vector<std::byte>(40), never_stop);
            std::this_thread::sleep_for(milliseconds(20));
        }
    });
    const auto survey = survey_network({"127.0.0.1", port}, 0.6, system_clock, never_stop);
    over = true;
    sender.join();
    REQUIRE_MESSAGE(survey.ok(), sentence(survey.problem()));
    CHECK(survey.value().state == NetworkSurvey::State::listened);
    CHECK(survey.value().seconds >= 0.6);
    CHECK(survey.value().other_packets > 0);
    REQUIRE(survey.value().devices.size() == 2);
    for (const DeviceHeard& heard : survey.value().devices) {
        CHECK(heard.sender.starts_with("127.0.0.1:"));
        CHECK(heard.packets > 0);
        if (heard.serial == 11) {
            CHECK(heard.described);
            CHECK(heard.device.name == "plates of the test");
            CHECK(heard.device.rate_hz == 500.0);
            CHECK(heard.device.layout.plates.size() == 2);
        } else {
            CHECK(heard.serial == 12);
            CHECK_FALSE(heard.described);
        }
    }
}

TEST_CASE("more senders than anybody has are not all kept") {
    const auto port = free_udp_port();
    std::thread sender([&] {
        std::this_thread::sleep_for(milliseconds(200));
        auto line = open_udp_line("127.0.0.1:" + std::to_string(port));
        for (std::uint32_t serial = 0; serial < 500; ++serial) {
            (void)line.value()->send(encode_cells({serial, 1, 0, 0}, std::vector<std::int32_t>(2)),
                                     never_stop);
        }
    });
    const auto survey = survey_network({"127.0.0.1", port}, 0.8, system_clock, never_stop);
    sender.join();
    REQUIRE(survey.ok());
    CHECK(survey.value().devices.size() == 64);
}

TEST_CASE("a UDP port that is taken is told, and stays with its holder") {
    const auto port = free_udp_port();
    UdpLinkOptions options;
    options.bind = {"127.0.0.1", port};
    UdpLink holder(options, system_clock);
    REQUIRE(holder.open().ok());
    const auto survey = survey_network({"127.0.0.1", port}, 5.0, system_clock, never_stop);
    REQUIRE(survey.ok());
    CHECK(survey.value().state == NetworkSurvey::State::taken);
    CHECK(survey.value().devices.empty());
}

TEST_CASE("an address that this computer does not have fails as a device") {
    const auto survey = survey_network({"192.0.2.1", free_udp_port()}, 0.1, system_clock, never_stop);  // RFC 5737
    REQUIRE_FALSE(survey.ok());
    CHECK(survey.problem().kind == ProblemKind::device_failed);
}

TEST_CASE("the program: what is heard as JSON, and a recorder that holds the port") {
    const std::string port = std::to_string(free_udp_port());
    const std::string here = "127.0.0.1:" + port;
    const ScratchFolder scratch;
    {
        const ChildProcess device(
            {FOOTING_PROGRAM, "emulate", "--udp", here, "--swings", "1", "--rate", "100"});
        const ProgramOutput output =
            run_program({FOOTING_PROGRAM, "devices", "--udp", here, "--seconds", "2", "--json", "-"});
        REQUIRE_MESSAGE(output.exit_code == 0, output.err);
        const auto json = nlohmann::json::parse(output.out);
        CHECK(json["udp"]["state"] == "listened");
        REQUIRE(json["udp"]["devices"].size() == 1);
        CHECK(json["udp"]["devices"][0]["serial"] == 100001);
        CHECK(json["udp"]["devices"][0]["rate_hz"] == 100.0);
        CHECK(json["udp"]["devices"][0]["plates"].size() == 2);
        CHECK(json["serial_ports"].is_array());
    }
    const ChildProcess recorder({FOOTING_PROGRAM, "record", "--udp", here, "--out", scratch / "lesson.h5"});
    // Looked up rather than tried: a port that is tried is taken, and the recorder would find it so.
    const auto give_up = steady_clock::now() + seconds(20);
    while (!udp_port_is_bound(here) && steady_clock::now() < give_up)
        std::this_thread::sleep_for(milliseconds(20));
    const ProgramOutput output =
        run_program({FOOTING_PROGRAM, "devices", "--udp", here, "--seconds", "0.05", "--json", "-"});
    REQUIRE(output.exit_code == 0);
    const auto json = nlohmann::json::parse(output.out);
    const std::string state = json["udp"]["state"];
    CHECK(state == "taken");
    CHECK(json["udp"]["held_by"].get<std::string>().starts_with("footing ("));
}

TEST_CASE("the program: record what is played") {
    const std::string here = "127.0.0.1:" + std::to_string(free_udp_port());
    const ScratchFolder scratch;
    write_file(scratch / "swing.csv", [] {
        std::string table =
            "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm\n";
        for (int i = 0; i < 300; ++i) {
            table +=
                std::to_string(i / 100.0) + "," + std::to_string(400 + i % 50) + ",350.5,-200,3,210,-4\n";
        }
        return table;
    }());
    REQUIRE(run_program({FOOTING_PROGRAM, "import", scratch / "swing.csv", "--out", scratch / "first.h5"})
                .exit_code == 0);
    ChildProcess recorder(
        {FOOTING_PROGRAM, "record", "--udp", here, "--out", scratch / "second.h5", "--seconds", "2.5"});
    std::this_thread::sleep_for(milliseconds(300));
    const ProgramOutput played = run_program({FOOTING_PROGRAM, "play", scratch / "first.h5", "--udp", here});
    CHECK_MESSAGE(played.exit_code == 0, played.err);
    CHECK(played.err.find("300 frames") != std::string::npos);
    CHECK(recorder.wait() == 0);
    CHECK(fs::exists(scratch / "second.h5"));
    CHECK(run_program({FOOTING_PROGRAM, "verify", scratch / "second.h5"}).exit_code == 0);
    CHECK(run_program({FOOTING_PROGRAM, "play", scratch / "none.h5", "--udp", here}).exit_code == 3);
    CHECK(run_program({FOOTING_PROGRAM, "play", scratch / "first.h5"}).exit_code == 2);
}
