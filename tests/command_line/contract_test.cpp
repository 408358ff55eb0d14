#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"
#include "tests/support/minimum_jerk.h"

using namespace footing::test;
using footing::testing::minimum_jerk;
using nlohmann::json;

namespace {

/// Two plates at 200 Hz: someone stands still, swings once, and holds the finish. Shares follow from the
/// shape below.
std::string one_swing_csv() {
    std::string csv =
        "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm,trigger\n";
    for (int i = 0; i < 200 * 10; ++i) {
        const double t = i / 200.0;
        const double share = 0.75 - 0.10 * minimum_jerk((t - 4.0) / 0.75) +
                             0.22 * minimum_jerk((t - 4.7) / 0.45) + 0.001 * std::sin(2 * M_PI * 0.7 * t);
        const double total = 700.0 * (1.0 + 0.15 * std::exp(-std::pow((t - 4.95) / 0.07, 2)) -
                                      0.10 * std::exp(-std::pow((t - 4.65) / 0.08, 2)));
        csv += fmt::format("{:.3f},{:.3f},{:.3f},{:.2f},{:.2f},{:.2f},{:.2f},{}\n", t, total * share,
                           total * (1 - share), -200 + std::sin(t), 10 + 2 * std::cos(t), 200 + std::sin(t),
                           12 + std::cos(t), i >= 1010 && i < 1012 ? 1 : 0);
    }
    return csv;
}

/// Feet without centres of pressure, an even load, a small shift and a strike: what a table of another system
/// may hold.
std::string small_struck_swing_csv() {
    std::string csv = "time_s,left_n,right_n,trigger\n";
    for (int i = 0; i < 200 * 12; ++i) {
        const double t = i / 200.0;
        const double share = 0.78 - 0.07 * minimum_jerk((t - 5.0) / 0.8) +
                             0.11 * minimum_jerk((t - 5.8) / 0.35) + 0.001 * std::sin(3.0 * t);
        csv += fmt::format("{:.3f},{:.3f},{:.3f},{}\n", t, 750 * share, 750 * (1 - share),
                           i >= 1215 && i < 1217 ? 1 : 0);
    }
    return csv;
}

}  // namespace

TEST_CASE("the help speaks to a coach: no names of a programming language's types, no library's headings") {
    std::string all = footing_says({"--help"}).out;
    for (const char* verb :
         {"emulate", "record", "check", "calibrate", "choose", "students", "swings", "lesson", "view"})
        all += footing_says({verb, "--help"}).out;
    CHECK(all.find("The lesson book:") != std::string::npos);
    CHECK(all.find("--rate NUMBER from 20 to 20000") != std::string::npos);
    CHECK(all.find("where to send to: at least one of these is needed, at most 3") != std::string::npos);
    for (const char* word :
         {"FLOAT", "INT", "BOOLEAN", "Option Group", "SUBCOMMAND", "follow options", "REQUIRED"}) {
        const auto at = all.find(word);
        const std::string there = at == std::string::npos ? "" : all.substr(at, 60);
        CHECK_MESSAGE(there.empty(), there);
    }
}

TEST_CASE("a wrong command line is exit 2, help is exit 0") {
    CHECK(footing_says({}).exit_code == 2);
    CHECK(footing_says({"frobnicate"}).exit_code == 2);
    CHECK(footing_says({"analyse"}).exit_code == 2);
    CHECK(footing_says({"record", "--out", "x.h5"}).exit_code == 2);
    CHECK(footing_says({"--help"}).exit_code == 0);
    CHECK(footing_says({"record", "--help"}).exit_code == 0);
}

TEST_CASE("a wrong word is told in one sentence that names it and says what to do") {
    const ScratchFolder scratch;
    const std::vector<std::pair<std::vector<std::string>, std::string>> cases{
        {{"recrod"}, "\"recrod\" is no verb"},
        {{"emulate", "--udp", "127.0.0.1:9", "--rate", "nan"}, "\"nan\" is not a number from"},
        {{"record", "--udp", "127.0.0.1:9", "--out", scratch / "a.h5", "--seconds", "-1"},
         "\"-1\" is not a number"},
        {{"record", "--udp", "127.0.0.1:9", "--out", ""}, "--out: nothing is written there"},
        {{"record", "--udp", "0.0.0.0:0", "--out", scratch / "a.h5"},
         "0.0.0.0:0: port 0 is no port that plates can send to"},
        {{"devices", "--udp", "0.0.0.0:0"}, "0.0.0.0:0: port 0 is no port that plates can send to"},
        {{"emulate", "--udp", "127.0.0.1:0"}, "127.0.0.1:0: port 0 is no port"},
        {{"analyse", "a.h5", "--bnad", "70:80"}, "--bnad"}};
    for (const auto& [words, sentence] : cases) {
        const auto said = footing_says(words);
        CAPTURE(said.err);
        CHECK(said.exit_code == 2);
        CHECK(said.err.find(sentence) != std::string::npos);
        CHECK(said.err.rfind("footing: ", 0) == 0);
        CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    }
    CHECK(footing_says({"--version"}).exit_code == 0);
}

TEST_CASE("a file that is no recording is exit 3, and the message names it") {
    const ScratchFolder scratch;
    write_file(scratch / "empty.h5", "");
    write_file(scratch / "text.h5", "hello\n");
    for (const std::string verb : {"analyse", "steadiness", "verify"}) {
        for (const std::string& file :
             {scratch / "empty.h5", scratch / "text.h5", scratch / "missing.h5", scratch.path()}) {
            const auto said = footing_says({verb, file});
            CAPTURE(verb);
            CAPTURE(file);
            CAPTURE(said.err);
            CHECK(said.exit_code == 3);
            CHECK(said.err.find(file) != std::string::npos);
            CHECK(said.out.empty());
        }
    }
}

TEST_CASE("a band that is none is exit 2 with a remedy") {
    const ScratchFolder scratch;
    for (const char* band : {"80:70", "seventy", "70", "70:", "-5:20", "70:180", "70:80x"}) {
        const auto said = footing_says({"analyse", scratch / "any.h5", "--band", band});
        CAPTURE(band);
        CHECK(said.exit_code == 2);
        CHECK(said.err.find("70:80") != std::string::npos);
    }
}

TEST_CASE("somebody else's CSV becomes a recording, its swing is found and told as the contract says") {
    const ScratchFolder scratch;
    write_file(scratch / "swing.csv", one_swing_csv());
    const auto imported =
        footing_says({"import", scratch / "swing.csv", "--out", scratch / "swing.h5", "--hand", "right"});
    REQUIRE_MESSAGE(imported.exit_code == 0, imported.err);
    const auto said = footing_says({"analyse", scratch / "swing.h5", "--json", "-"});
    REQUIRE_MESSAGE(said.exit_code == 0, said.err);
    const json result = json::parse(said.out);

    CHECK(result.at("hand") == "right");
    CHECK(result.at("rate_hz").get<double>() == doctest::Approx(200.0));
    CHECK(result.at("duration_s").get<double>() == doctest::Approx(9.995));
    CHECK(result.at("body_weight_n").get<double>() == doctest::Approx(700.0).epsilon(0.005));
    CHECK(result.at("quality").at("frames") == 2000);
    CHECK(result.at("quality").at("lost") == 0);
    CHECK(result.at("quality").at("damaged") == 0);
    CHECK(result.at("quality").at("gaps").empty());
    CHECK(result.at("quality").at("outcome") == "clean");
    CHECK(result.at("strikes_without_swing_s") == json::array());
    CHECK(result.at("swings_as_other_hand") == 0);

    REQUIRE(result.at("swings").size() == 1);
    const json& swing = result.at("swings")[0];
    CHECK(swing.at("index") == 1);
    CHECK(swing.at("kind") == "shot");
    CHECK(swing.at("events").at("impact").at("source") == "measured");
    CHECK(swing.at("events").at("impact").at("time_s").get<double>() == doctest::Approx(5.05).epsilon(0.001));
    CHECK(swing.at("events").at("takeaway").at("time_s").get<double>() == doctest::Approx(4.1).epsilon(0.05));
    CHECK(swing.at("lead_share").at("address").at("value").get<double>() ==
          doctest::Approx(0.75).epsilon(0.004));
    CHECK(swing.at("lead_share").at("address").at("verdict") == "inside");
    CHECK(swing.at("lead_share").at("lowest").at("value").get<double>() ==
          doctest::Approx(0.65).epsilon(0.01));
    CHECK(swing.at("lead_share").at("lowest").at("verdict") == "below");
    CHECK(swing.at("lead_share").at("finish").at("value").get<double>() ==
          doctest::Approx(0.87).epsilon(0.01));
    CHECK(swing.at("vertical").at("max_bw").get<double>() == doctest::Approx(1.15).epsilon(0.02));
    // Stance frame: x towards the target, which is to the left of a right-handed golfer.
    const double cop_x_m = swing.at("cop_m").at("address")[0].get<double>();
    CHECK(cop_x_m == doctest::Approx(0.75 * 0.2 - 0.25 * 0.2).epsilon(0.03));
}

TEST_CASE("the same swing of a left-handed golfer has the other foot in the lead") {
    const ScratchFolder scratch;
    write_file(scratch / "swing.csv", one_swing_csv());
    REQUIRE(footing_says({"import", scratch / "swing.csv", "--out", scratch / "swing.h5", "--hand", "left"})
                .exit_code == 0);
    const auto said = footing_says({"analyse", scratch / "swing.h5", "--json", "-"});
    REQUIRE(said.exit_code == 0);
    const json result = json::parse(said.out);
    CHECK(result.at("hand") == "left");
    for (const json& swing : result.at("swings")) {
        CHECK(swing.at("lead_share").at("address").at("value").get<double>() ==
              doctest::Approx(0.25).epsilon(0.01));
    }
}

TEST_CASE("an import never overwrites, and a bad file leaves nothing behind") {
    const ScratchFolder scratch;
    write_file(scratch / "swing.csv", one_swing_csv());
    write_file(scratch / "taken.h5", "mine");
    const auto taken = footing_says({"import", scratch / "swing.csv", "--out", scratch / "taken.h5"});
    CHECK(taken.exit_code == 2);
    CHECK(read_file(scratch / "taken.h5") == "mine");

    write_file(scratch / "bad.csv", "time_s,left_n,right_n\n0.00,1,2\n0.01,1,x\n");
    const auto bad = footing_says({"import", scratch / "bad.csv", "--out", scratch / "bad.h5"});
    CHECK(bad.exit_code == 3);
    CHECK(bad.err.find("line 3") != std::string::npos);
    CHECK(read_file(scratch / "bad.h5").empty());
}

TEST_CASE("a small shift is a swing when the trigger says that a ball was struck") {
    const ScratchFolder scratch;
    write_file(scratch / "small.csv", small_struck_swing_csv());
    REQUIRE(footing_says({"import", scratch / "small.csv", "--out", scratch / "small.h5"}).exit_code == 0);
    const auto said = footing_says({"analyse", scratch / "small.h5", "--json", "-"});
    REQUIRE(said.exit_code == 0);
    const json swings = json::parse(said.out).at("swings");
    REQUIRE(swings.size() == 1);
    CHECK(swings[0].at("kind") == "shot");
    CHECK(swings[0].at("lead_share").at("address").at("value").get<double>() ==
          doctest::Approx(0.78).epsilon(0.005));
    CHECK(swings[0].at("lead_share").at("lowest").at("value").get<double>() ==
          doctest::Approx(0.71).epsilon(0.01));
}

TEST_CASE("played as the wrong hand, the program says that the other hand would hold a swing") {
    const ScratchFolder scratch;
    write_file(scratch / "small.csv", small_struck_swing_csv());
    REQUIRE(footing_says({"import", scratch / "small.csv", "--out", scratch / "small.h5", "--hand", "left"})
                .exit_code == 0);
    const auto said = footing_says({"analyse", scratch / "small.h5"});
    CHECK(said.out.find("--hand right") != std::string::npos);
    CHECK(said.out.find("told of a strike") != std::string::npos);
    const json told = json::parse(footing_says({"analyse", scratch / "small.h5", "--json", "-"}).out);
    REQUIRE(told.at("strikes_without_swing_s").size() == 1);
    CHECK(told.at("strikes_without_swing_s")[0].get<double>() == doctest::Approx(1215 / 200.0));
    CHECK(told.at("swings_as_other_hand") == 1);
}

TEST_CASE(
    "where the recording was never closed, its journal is pointed at, and recovered by the recording's "
    "name") {
    const ScratchFolder scratch;
    const std::string address = "127.0.0.1:" + std::to_string(free_udp_port());
    {
        ChildProcess recorder({FOOTING_PROGRAM, "record", "--udp", address, "--out", scratch / "lesson.h5"});
        REQUIRE(footing_says({"emulate", "--udp", address, "--fast", "50", "--swings", "1"}).exit_code == 0);
    }  // killed here
    for (const char* verb : {"analyse", "verify", "mark", "play"}) {
        std::vector<std::string> words{verb, scratch / "lesson.h5"};
        if (std::string(verb) == "play") words.insert(words.end(), {"--udp", address});
        const auto refused = footing_says(words);
        CAPTURE(refused.err);
        CHECK(refused.exit_code == 3);
        CHECK(refused.err.find("never closed, but its journal is there; footing recover") !=
              std::string::npos);
        CHECK(std::count(refused.err.begin(), refused.err.end(), '\n') == 1);
    }
    const auto recovered = footing_says({"recover", scratch / "lesson.h5", "--out", scratch / "saved.h5"});
    CHECK_MESSAGE(recovered.exit_code == 0, recovered.err);
    CHECK(footing_says({"verify", scratch / "saved.h5"}).exit_code == 0);
    const auto analysed_later = footing_says({"analyse", scratch / "saved.h5", "--json", "-"});
    REQUIRE(analysed_later.exit_code == 0);
    CHECK(json::parse(analysed_later.out).at("quality").at("outcome") == "truncated");
}

TEST_CASE("a table that was not imported yet is told so") {
    const ScratchFolder scratch;
    write_file(scratch / "swing.csv", one_swing_csv());
    const auto said = footing_says({"analyse", scratch / "swing.csv"});
    CHECK(said.exit_code == 3);
    CHECK(said.err.find("footing import") != std::string::npos);
}

TEST_CASE("a line named twice is refused before anything is waited for") {
    const ScratchFolder folder;
    for (const std::string option : {"--udp", "--serial"}) {
        const std::string line = option == "--udp" ? "127.0.0.1:9750" : folder / "plates.tty";
        const ProgramOutput said =
            footing_says({"record", option, line, option, line, "--out", folder / "a.h5"});
        CHECK(said.exit_code == 2);
        CHECK(said.err.find(line + ": this line is named twice") != std::string::npos);
    }
}

TEST_CASE("a table in kilograms is imported with a note that names the unit, and well with --scale") {
    const ScratchFolder scratch;
    std::string csv = "time_s,left_n,right_n\n";
    for (int i = 0; i < 300; ++i) csv += fmt::format("{:.2f},50,{}\n", i / 100.0, 25 + i % 2);
    write_file(scratch / "kg.csv", csv);
    const auto doubted = footing_says({"import", scratch / "kg.csv", "--out", scratch / "kg.h5"});
    CHECK(doubted.exit_code == 0);
    CHECK(doubted.err.find("note: ") == 0);
    CHECK(doubted.err.find("in kilograms (9.80665 N each) 76 kg") != std::string::npos);
    CHECK(doubted.err.find("--scale") != std::string::npos);
    const auto scaled =
        footing_says({"import", scratch / "kg.csv", "--out", scratch / "newtons.h5", "--scale", "9.80665"});
    CHECK(scaled.exit_code == 0);
    CHECK(scaled.err.empty());
    CHECK(footing_says({"import", scratch / "kg.csv", "--out", scratch / "x.h5", "--scale", "0"}).exit_code ==
          2);
    CHECK(footing_says({"import", scratch / "kg.csv", "--out", scratch / "x.h5", "--scale", "-9.8"})
              .exit_code == 3);
}
