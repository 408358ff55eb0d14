#include <arpa/inet.h>
#include <doctest/doctest.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <nlohmann/json.hpp>
#include <thread>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_encoder.h"
#include "tests/calibration/simulated_plates.h"
#include "tests/support/child_process.h"
#include "viewer/calibration/readings_file.h"

using namespace footing;
using namespace footing::test;

namespace {

/// One spell of a lesson that a test made up: what stands on the plates, and for how long by the device's
/// clock.
struct Spell {
    double seconds = 0.0;
    std::vector<std::pair<std::size_t, double>> cell_n;   ///< value, force
    std::vector<std::pair<std::size_t, double>> plate_n;  ///< plate, force
};

/// A device on a real UDP socket that plays spells much faster than the clock on the wall, the last one for
/// ever.
class FastDevice {
  public:
    FastDevice(int port, SimulatedPlates plates, std::vector<Spell> spells)
        : plates_(std::move(plates)), spells_(std::move(spells)), socket_(::socket(AF_INET, SOCK_DGRAM, 0)) {
        to_.sin_family = AF_INET;
        to_.sin_port = htons(static_cast<std::uint16_t>(port));
        ::inet_pton(AF_INET, "127.0.0.1", &to_.sin_addr);
        ::connect(socket_, reinterpret_cast<const sockaddr*>(&to_), sizeof to_);
        thread_ = std::thread([this] { play(); });
    }
    ~FastDevice() {
        over_ = true;
        thread_.join();
        ::close(socket_);
    }

  private:
    static constexpr int bursts_at_the_end = 6000;  // then silence, so that nothing waits for ever
    static constexpr int frames_a_burst = 20;  // 0.2 s of the device's time each 10 ms: twenty times as fast

    void send(const std::vector<std::byte>& packet) {
        // On loopback a connected socket is told that nobody listens.
        if (::send(socket_, packet.data(), packet.size(), 0) < 0 && errno == ECONNREFUSED) refused_ = true;
    }
    PacketHead head(const FrameStamp& stamp) const {
        return {4711, static_cast<std::uint32_t>(stamp.counter), stamp.device_time_us, 0};
    }
    void burst() {
        FrameStamp stamp;
        for (int i = 0; i < frames_a_burst; ++i) {
            const FrameView frame = plates_.next();
            stamp = frame.stamp;
            send(encode_cells(head(stamp), std::get<std::span<const std::int32_t>>(frame.values)));
        }
        send(encode_description(head(stamp), description_json(plates_.description())));
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    void play() {
        // The plates stay as the first spell has them until the program listens.
        do {
            refused_ = false;
            burst();
        } while (refused_ && !over_);
        for (std::size_t i = 0; i < spells_.size() && !over_; ++i) {
            plates_.clear();
            for (const auto& [value, force_n] : spells_[i].cell_n)
                plates_.put_on_cell(value / 4, value % 4, force_n);
            for (const auto& [plate, force_n] : spells_[i].plate_n) plates_.put(plate, force_n, {0.0, 0.03});
            const int bursts = static_cast<int>(spells_[i].seconds * 100.0 / frames_a_burst);
            for (int b = 0; b < bursts && !over_; ++b) burst();
        }
        for (int b = 0; b < bursts_at_the_end && !over_; ++b) burst();
    }

    SimulatedPlates plates_;
    std::vector<Spell> spells_;
    int socket_;
    sockaddr_in to_{};
    bool refused_ = false;  ///< since it was last reset; the thread's own
    std::atomic<bool> over_{false};
    std::thread thread_;
};

/// Each cell empty, 10, 20, 10 kg, empty; long enough for two readings of the empty plates.
std::vector<Spell> masses_over_each_cell() {
    std::vector<Spell> spells;
    for (std::size_t cell = 0; cell < 8; ++cell) {
        spells.push_back({12.0, {}, {}});
        for (const double kg : {10.0, 20.0, 10.0}) spells.push_back({10.0, {{cell, kg * local_g_m_s2}}, {}});
    }
    spells.push_back({12.0, {}, {}});
    return spells;
}

/// Masses on each cell, one reading each, as a table that somebody took by hand.
std::string readings_of(SimulatedPlates& plates) {
    std::string text =
        "# taken by "
        "hand\nmass_kg,plate,cell,count_1,count_2,count_3,count_4,count_5,count_6,count_7,count_8\n";
    for (std::size_t value = 0; value < 8; ++value) {
        for (const int kg : {0, 10, 20, 30, 20, 10, 0}) {
            plates.clear();
            plates.put_on_cell(value / 4, value % 4, kg * local_g_m_s2);
            text += std::to_string(kg) + (value < 4 ? ",left," : ",right,") + std::to_string(value % 4 + 1);
            const FrameView frame = plates.next();
            for (const auto counts : std::get<std::span<const std::int32_t>>(frame.values))
                text += "," + std::to_string(counts);
            text += "\n";
        }
    }
    return text;
}

}  // namespace

TEST_CASE("footing calibrate makes a record over UDP, and footing check uses it") {
    const ScratchFolder scratch;
    SimulatedPlates plates(31);
    const std::array<double, 8> gains = plates.gains;
    const int port = free_udp_port();
    {
        const FastDevice device(port, plates, masses_over_each_cell());
        const auto said =
            run_program({FOOTING_PROGRAM, "calibrate", "--udp", here(port), "--out", scratch / "cal.json",
                         "--masses", "10,20", "--gravity", "9.81", "--mass-tolerance", "0.1"});
        REQUIRE_MESSAGE(said.exit_code == 0, said.out << said.err);
        CHECK(said.out.find("Put 10 kg over cell 1 of the left plate") != std::string::npos);
        CHECK(said.out.find("hysteresis") != std::string::npos);
    }
    const auto record = parse_calibration(read_file(scratch / "cal.json"), "cal.json");
    REQUIRE_MESSAGE(record.ok(), sentence(record.problem()));
    CHECK(record.value().device_serial == 4711);
    CHECK(record.value().readings.size() == 8 * 5);
    for (std::size_t i = 0; i < 8; ++i)
        CHECK(record.value().newtons_per_count[i] == doctest::Approx(gains[i]).epsilon(0.002));
    CHECK(read_file(scratch / "cal.json.readings.csv").empty());  // the record holds them

    const auto taken = run_program({FOOTING_PROGRAM, "calibrate", "--udp", here(port), "--out",
                                    scratch / "cal.json", "--masses", "10,20"});
    CHECK(taken.exit_code == 2);

    const double weight_n = 75.0 * 9.80665;
    const FastDevice device(port, plates,
                            {{16.0, {}, {}},
                             {16.0, {}, {{0, 0.5 * weight_n}, {1, 0.5 * weight_n}}},
                             {16.0, {}, {{0, weight_n}}},
                             {16.0, {}, {{1, weight_n}}}});
    const auto checked = run_program({FOOTING_PROGRAM, "check", "--udp", here(port), "--weight", "75",
                                      "--calibration", scratch / "cal.json", "--json", "-"});
    REQUIRE_MESSAGE(checked.exit_code == 0, checked.err);
    const auto result = nlohmann::json::parse(checked.out);
    CHECK(result.at("overall") == "agrees");
    CHECK(result.at("left_only_n").get<double>() == doctest::Approx(weight_n).epsilon(0.005));
}

TEST_CASE("footing check refuses another device's calibration and gives up when nobody comes") {
    const ScratchFolder scratch;
    const int port = free_udp_port();
    const SimulatedPlates plates(32);
    const FastDevice device(port, plates, {});
    Calibration foreign = nominal_calibration(plates.description(), 1.0);
    foreign.device_serial = 1;
    foreign.method = "known masses on each cell";
    write_file(scratch / "foreign.json", calibration_json(foreign));
    const auto refused = run_program(
        {FOOTING_PROGRAM, "check", "--udp", here(port), "--calibration", scratch / "foreign.json"});
    CHECK(refused.exit_code == 3);
    CHECK(refused.err.find("belongs to device 1") != std::string::npos);
    const auto alone =
        run_program({FOOTING_PROGRAM, "check", "--udp", here(port), "--weight", "75", "--idle", "3"});
    CHECK(alone.exit_code == 4);
    CHECK(alone.err.find("Waiting for someone") != std::string::npos);
}

TEST_CASE("footing calibrate keeps the readings when it is stopped") {
    const ScratchFolder scratch;
    const int port = free_udp_port();
    const FastDevice device(port, SimulatedPlates(33), masses_over_each_cell());
    ChildProcess child({FOOTING_PROGRAM, "calibrate", "--udp", here(port), "--out", scratch / "cal.json",
                        "--masses", "10,20"});
    const std::string kept = scratch / "cal.json.readings.csv";
    std::string text;
    for (int i = 0; i < 600 && std::count(text.begin(), text.end(), '\n') < 4; ++i) {
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
        text = read_file(kept);
    }
    REQUIRE(std::count(text.begin(), text.end(), '\n') >= 4);
    child.send_signal(SIGINT);
    CHECK(child.wait() == 3);
    CHECK(read_file(scratch / "cal.json").empty());
    const auto readings = parse_readings(read_file(kept), kept, SimulatedPlates(33).description());
    REQUIRE_MESSAGE(readings.ok(), sentence(readings.problem()));
    CHECK(readings.value().size() >= 3);
}

TEST_CASE("footing calibrate works from a table of readings") {
    const ScratchFolder scratch;
    SimulatedPlates plates(34);
    const DeviceDescription device = plates.description();
    write_file(scratch / "readings.csv", readings_of(plates));
    write_file(scratch / "device.json", description_json(device));
    const auto said = run_program({FOOTING_PROGRAM, "calibrate", "--from", scratch / "readings.csv",
                                   "--device", scratch / "device.json", "--out", scratch / "cal.json",
                                   "--latitude", "52", "--height", "40"});
    REQUIRE_MESSAGE(said.exit_code == 0, said.err);
    const auto record = parse_calibration(read_file(scratch / "cal.json"), "cal.json");
    REQUIRE(record.ok());
    CHECK(record.value().gravity_source == "latitude 52 degrees, height 40 m");
    CHECK(record.value().newtons_per_count[3] ==
          doctest::Approx(plates.gains[3] * record.value().gravity_m_s2 / local_g_m_s2).epsilon(0.005));

    write_file(scratch / "bad.csv", "mass_kg,plate\n1,left\n");
    const auto bad = run_program({FOOTING_PROGRAM, "calibrate", "--from", scratch / "bad.csv", "--device",
                                  scratch / "device.json", "--out", scratch / "other.json"});
    CHECK(bad.exit_code == 3);
    CHECK(bad.err.find("count_1") != std::string::npos);
    CHECK(run_program({FOOTING_PROGRAM, "calibrate", "--out", scratch / "x.json"}).exit_code == 2);
}

TEST_CASE("a calibration without --out is kept beside the book, and --calibration kept takes it up") {
    const ScratchFolder scratch;
    const std::string data = "XDG_DATA_HOME=" + scratch.path();
    SimulatedPlates plates(35);
    write_file(scratch / "readings.csv", readings_of(plates));
    write_file(scratch / "device.json", description_json(plates.description()));
    plates.clear();
    const int port = free_udp_port();
    const FastDevice device(port, plates, {});
    const auto recorded = [&](const std::string& file) {
        return run_program({data, FOOTING_PROGRAM, "record", "--udp", here(port), "--seconds", "1",
                            "--calibration", "kept", "--out", scratch / file});
    };
    const auto calibration_in = [&](const std::string& file) {
        const std::string told = run_program({FOOTING_PROGRAM, "analyse", scratch / file}).out;
        const std::size_t at = told.find("Calibration");
        REQUIRE(at != std::string::npos);
        return told.substr(at, told.find('\n', at) - at);
    };
    const auto none = recorded("none.h5");
    REQUIRE_MESSAGE(none.exit_code == 0, none.err);
    CHECK(none.err.find("no calibration of") != std::string::npos);
    CHECK(calibration_in("none.h5").find("not calibrated") != std::string::npos);
    const auto unchecked =
        run_program({data, FOOTING_PROGRAM, "check", "--udp", here(port), "--calibration", "kept"});
    CHECK(unchecked.exit_code == 3);
    CHECK(unchecked.err.find("make one with footing calibrate") != std::string::npos);

    const auto made = run_program({data, FOOTING_PROGRAM, "calibrate", "--from", scratch / "readings.csv",
                                   "--device", scratch / "device.json", "--gravity", "9.81"});
    REQUIRE_MESSAGE(made.exit_code == 0, made.err);
    CHECK(made.out.find("--calibration kept") != std::string::npos);
    const auto calibrated = recorded("calibrated.h5");
    REQUIRE_MESSAGE(calibrated.exit_code == 0, calibrated.err);
    CHECK(calibration_in("calibrated.h5").find("not calibrated") == std::string::npos);
}
