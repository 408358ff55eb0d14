#include <doctest/doctest.h>
#include <signal.h>

#include <fmt/format.h>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"

// Calibration and quick check from end to end: both ends are the program, as child processes, and what joins
// them is a real pty or a real UDP port. Known weights stand on the emulated plates.

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

constexpr const char* speed = "40";

/// A table of weights for `footing emulate --weights`.
class WeightsTable {
  public:
    void leave_empty(double seconds) { time_s_ += seconds; }
    void put(const std::string& plate, double kg, double x_mm, double y_mm, double seconds) {
        add(plate, kg, x_mm, y_mm, seconds);
        time_s_ += seconds;
    }
    void put_on_both(double left_kg, double right_kg, double seconds) {
        add("left", left_kg, 0, 30, seconds);
        add("right", right_kg, 0, 30, seconds);
        time_s_ += seconds;
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    void add(const std::string& plate, double kg, double x_mm, double y_mm, double seconds) {
        text_ +=
            fmt::format("{:g},{:g},{},{:g},{:g},{:g}\n", time_s_, time_s_ + seconds, plate, kg, x_mm, y_mm);
    }
    std::string text_ = "from_s,to_s,plate,kg,x_mm,y_mm\n";
    double time_s_ = 0.0;
};

/// As the guide asks: each cell empty, 10, 20, 10 kg, empty.
std::string masses_on_each_cell() {
    WeightsTable table;
    for (const char* plate : {"left", "right"}) {
        // Cells in the order of the counts: front left, front right, back left, back right.
        for (const auto& [x_mm, y_mm] : {std::pair{-170, 220}, {170, 220}, {-170, -220}, {170, -220}}) {
            table.leave_empty(12.0);
            for (const double kg : {10.0, 20.0, 10.0}) table.put(plate, kg, x_mm, y_mm, 10.0);
        }
    }
    return table.text();
}

std::string person(double left_kg_alone, double right_kg_alone) {
    WeightsTable table;
    table.leave_empty(16.0);
    table.put_on_both(0.5 * left_kg_alone, 0.5 * right_kg_alone, 16.0);
    table.put("left", left_kg_alone, 0, 30, 16.0);
    table.put("right", right_kg_alone, 0, 30, 16.0);
    return table.text();
}

std::vector<std::string> weights_on(const std::string& line_kind, const std::string& line,
                                    const std::string& table) {
    return {FOOTING_PROGRAM, "emulate", line_kind, line,     "--weights",
            table,           "--rate",  "100",     "--fast", speed};
}

/// Waits until the pty is there.
void wait_for(const std::string& path) {
    for (int i = 0; i < 1000 && !std::filesystem::exists(path); ++i) std::this_thread::sleep_for(10ms);
    REQUIRE(std::filesystem::exists(path));
}

/// Starts the plates as soon as the program listens, so that the first spell is not half over.
void wait_until_somebody_listens(int port) {
    for (int i = 0; i < 1000; ++i) {
        const std::string table = read_file("/proc/net/udp");
        if (table.find(fmt::format(":{:04X} ", port)) != std::string::npos) return;
        std::this_thread::sleep_for(10ms);
    }
    FAIL("nobody listens");
}

}  // namespace

TEST_CASE("calibrated over a real serial line with known weights, checked over it, and over UDP") {
    const ScratchFolder scratch;
    const std::string line = scratch / "plates";
    write_file(scratch / "masses.csv", masses_on_each_cell());
    write_file(scratch / "person.csv", person(75.0, 75.0));
    {
        const ChildProcess plates(weights_on("--pty", line, scratch / "masses.csv"));
        wait_for(line);
        const auto said =
            run_program({FOOTING_PROGRAM, "calibrate", "--serial", line, "--out", scratch / "cal.json",
                         "--masses", "10,20", "--gravity", "9.80665", "--mass-tolerance", "0.1"});
        REQUIRE_MESSAGE(said.exit_code == 0, said.out << said.err);
    }
    const auto record = parse_calibration(read_file(scratch / "cal.json"), "cal.json");
    REQUIRE(record.ok());
    CHECK(record.value().readings.size() == 8 * 5);
    // The emulated cells are worth 0.00025 N a count but for a gain error of 0.05 % (one standard deviation).
    for (const double scale : record.value().newtons_per_count)
        CHECK(scale == doctest::Approx(0.00025).epsilon(0.003));

    {
        const ChildProcess plates(weights_on("--pty", line, scratch / "person.csv"));
        wait_for(line);
        const auto checked = run_program({FOOTING_PROGRAM, "check", "--serial", line, "--weight", "75",
                                          "--calibration", scratch / "cal.json", "--json", "-"});
        REQUIRE_MESSAGE(checked.exit_code == 0, checked.err);
        const auto result = nlohmann::json::parse(checked.out);
        CHECK(result.at("overall") == "agrees");
        CHECK(result.at("left_only_n").get<double>() == doctest::Approx(75.0 * 9.80665).epsilon(0.002));
        CHECK(result.at("right_only_n").get<double>() == doctest::Approx(75.0 * 9.80665).epsilon(0.002));
    }
    // A person who weighs 5 % less on the right plate: the plates do not read alike.
    {
        write_file(scratch / "unlike.csv", person(75.0, 71.0));
        const int port = free_udp_port();
        const std::string address = "127.0.0.1:" + std::to_string(port);
        std::thread device([&] {
            wait_until_somebody_listens(port);
            run_program(weights_on("--udp", address, scratch / "unlike.csv"));
        });
        const auto checked = run_program({FOOTING_PROGRAM, "check", "--udp", address, "--weight", "75",
                                          "--calibration", scratch / "cal.json", "--json", "-"});
        device.join();
        REQUIRE_MESSAGE(checked.exit_code == 0, checked.err);
        CHECK(nlohmann::json::parse(checked.out).at("overall") == "differs");
    }
}

TEST_CASE(
    "each zero is an event in the recording, and none is taken while something stands on the plates (R18)") {
    const ScratchFolder scratch;
    WeightsTable table;
    // Empty, then three people one after the other; the plates lie empty for a second and more between them.
    for (int person = 0; person < 3; ++person) {
        table.leave_empty(4.0);
        table.put_on_both(37.0, 38.0, 6.0);
    }
    write_file(scratch / "people.csv", table.text());
    // And a lesson that begins with somebody on the plates, who stays.
    WeightsTable occupied;
    occupied.put_on_both(37.0, 38.0, 20.0);
    write_file(scratch / "occupied.csv", occupied.text());

    const auto notes_of = [&](const std::string& weights, const std::string& seconds) {
        const std::string line = scratch / "plates";
        ChildProcess plates({FOOTING_PROGRAM, "emulate", "--pty", line, "--weights", scratch / weights,
                             "--rate", "100", "--fast", "10"});
        wait_for(line);
        const std::string out = scratch / (weights + ".h5");
        const auto said =
            run_program({FOOTING_PROGRAM, "record", "--serial", line, "--out", out, "--seconds", seconds});
        REQUIRE_MESSAGE(said.exit_code == 0, said.err);
        plates.send_signal(SIGTERM);
        plates.wait();
        const auto reader = RecordingReader::open(out);
        REQUIRE(reader.ok());
        std::vector<std::string> zeros;
        for (const RecordingNote& note : reader.value().info().notes)
            if (note.text.find("zero") != std::string::npos) zeros.push_back(note.text);
        return zeros;
    };
    const std::vector<std::string> zeros = notes_of("people.csv", "30");
    REQUIRE_FALSE(zeros.empty());
    CHECK(zeros[0].find("first zero on the empty plates") == 0);
    CHECK(zeros.size() <= 4);  // at most one for each time the plates were empty
    CHECK(notes_of("occupied.csv", "15").empty());
}

TEST_CASE("a table of weights that makes no sense is refused, naming the line") {
    const ScratchFolder scratch;
    for (const auto& [row, words] : {std::pair{"0,1,middle,10", "line 2: \"middle\" is no plate"},
                                     {"5,1,left,10", "line 2: \"to_s\" is not from 5"},
                                     {"0,1,left,x", "line 2: "},
                                     {"0,1,left,-3", "line 2: \"kg\" is not"}}) {
        write_file(scratch / "w.csv", std::string("from_s,to_s,plate,kg\n") + row + "\n");
        const auto said =
            run_program({FOOTING_PROGRAM, "emulate", "--udp", "127.0.0.1:9", "--weights", scratch / "w.csv"});
        CHECK(said.exit_code == 3);
        CHECK_MESSAGE(said.err.find(words) != std::string::npos, said.err);
    }
}

TEST_CASE("a table of weights is told apart from one that cannot be meant") {
    const ScratchFolder scratch;
    const auto emulate = [&](std::vector<std::string> more) {
        std::vector<std::string> words{FOOTING_PROGRAM, "emulate", "--udp",    "127.0.0.1:9",
                                       "--fast",        "1000",    "--weights"};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    };
    const std::string table = scratch / "w.csv";
    write_file(table,
               "\xEF\xBB\xBF"
               "from_s,to_s,plate,kg\n0,1,left,5\n");
    const auto marked = emulate({table});
    CHECK_MESSAGE(marked.exit_code == 0, marked.err);
    for (const std::vector<std::string>& beside : std::vector<std::vector<std::string>>{
             {"--swings", "3"}, {"--student", "2"}, {"--mass", "70"}, {"--hand", "left"}}) {
        const auto said = emulate({table, beside[0], beside[1]});
        CHECK(said.exit_code == 2);
        CHECK_MESSAGE(said.err.find(beside[0]) != std::string::npos, said.err);
    }
    CHECK(emulate({""}).exit_code == 2);
    write_file(table, "from_s,to_s,plate,kg,kg\n0,1,left,5,50\n");
    const auto twice = emulate({table});
    CHECK(twice.exit_code == 3);
    CHECK_MESSAGE(twice.err.find("two columns \"kg\"") != std::string::npos, twice.err);
}

TEST_CASE("what calibrate is told is checked before the plates are waited for") {
    const ScratchFolder scratch;
    const std::vector<std::vector<std::string>> wrong{{"--masses", "nan"},
                                                      {"--masses", "20,10"},
                                                      {"--masses", "10", "--creep", "nan"},
                                                      {"--masses", "10,-3"},
                                                      {"--masses", "10", "--walk", "inf"},
                                                      {"--masses", "10", "--repeats", "0"},
                                                      {}};
    for (const std::vector<std::string>& words : wrong) {
        std::vector<std::string> all{
            FOOTING_PROGRAM, "calibrate", "--udp", "127.0.0.1:" + std::to_string(free_udp_port()),
            "--wait",        "0.1",       "--out", scratch / "c.json"};
        all.insert(all.end(), words.begin(), words.end());
        const auto said = run_program(all);
        CHECK_MESSAGE(said.exit_code == 2, said.err);
    }
}
