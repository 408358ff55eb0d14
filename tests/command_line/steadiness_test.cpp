#include <doctest/doctest.h>

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

using namespace footing::test;
using nlohmann::json;

namespace {

/// Half a minute of someone who stands still on one plate, at 100 Hz.
std::string standing_csv() {
    std::string csv = "time_s,total_n,cop_x_mm,cop_y_mm\n";
    for (int i = 0; i < 3000; ++i)
        csv += fmt::format("{:.2f},700,{:.3f},{:.3f}\n", i / 100.0, std::sin(i / 50.0), std::cos(i / 70.0));
    return csv;
}

bool tells(const ProgramOutput& said, const char* words) {
    return said.out.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("steadiness is not measured across missing frames") {
    const ScratchFolder scratch;
    std::string csv = "time_s,total_n,cop_x_mm,cop_y_mm\n";
    for (int i = 0; i < 1500; ++i) {
        if (i >= 500 && i < 1000) continue;
        csv += fmt::format("{:.2f},700,{:.3f},{:.3f}\n", i / 100.0, std::sin(i / 50.0), std::cos(i / 70.0));
    }
    write_file(scratch / "gap.csv", csv);
    REQUIRE(footing_says({"import", scratch / "gap.csv", "--out", scratch / "gap.h5"}).exit_code == 0);
    CHECK(footing_says({"steadiness", scratch / "gap.h5"}).exit_code == 3);
    CHECK(footing_says({"steadiness", scratch / "gap.h5", "--from", "6", "--to", "9"}).exit_code == 3);
    CHECK(footing_says({"steadiness", scratch / "gap.h5", "--from", "0", "--to", "4.9"}).exit_code == 0);
}

TEST_CASE("a part that lies the wrong way round, or after the end, is refused with the recording's length") {
    const std::string recording = std::string(FOOTING_SOURCE_DIR) + "/recordings/left_handed_plates.h5";
    const ProgramOutput turned = footing_says({"steadiness", recording, "--from", "20", "--to", "10"});
    CHECK(turned.exit_code == 2);
    CHECK(turned.err.find("--from is not before --to") != std::string::npos);
    const ProgramOutput late = footing_says({"steadiness", recording, "--from", "200"});
    CHECK(late.exit_code == 2);
    CHECK(late.err.find("lasts 67.6") != std::string::npos);
}

TEST_CASE("a short look is told to be none of posturography, and one too short for any sway is refused") {
    const ScratchFolder scratch;
    write_file(scratch / "standing.csv", standing_csv());
    const std::string recording = scratch / "standing.h5";
    REQUIRE(footing_says({"import", scratch / "standing.csv", "--out", recording}).exit_code == 0);
    const auto whole = footing_says({"steadiness", recording});
    CHECK(whole.exit_code == 0);
    CHECK_FALSE(tells(whole, "A short window"));
    CHECK_FALSE(tells(whole, "Nobody stood still"));
    const auto part = footing_says({"steadiness", recording, "--from", "5", "--to", "10"});
    CHECK(part.exit_code == 0);
    CHECK(tells(part, "A short window: 5.0 s is no posturography"));
    for (const char* to : {"5.2", "5.9", "5.005"}) {
        const auto instant = footing_says({"steadiness", recording, "--from", "5", "--to", to});
        CAPTURE(to);
        CHECK(instant.exit_code == 3);
        CHECK(instant.out.empty());
        CHECK(instant.err.find(recording) != std::string::npos);
        CHECK(instant.err.find("too short to see anybody sway") != std::string::npos);
    }
    const auto as_json = [&](const char* to) {
        return json::parse(footing_says({"steadiness", recording, "--to", to, "--json", "-"}).out);
    };
    CHECK(as_json("29").at("short_window") == false);
    CHECK(as_json("5").at("short_window") == true);
    CHECK(as_json("5").at("stood_still") == true);
}

TEST_CASE("who did not stand still is told so in the table and in the JSON") {
    const ScratchFolder scratch;
    std::string csv = "time_s,total_n,cop_x_mm,cop_y_mm\n";
    for (int i = 0; i < 3000; ++i)
        csv += fmt::format("{:.2f},700,{:.3f},0\n", i / 100.0, 100.0 * std::sin(i / 50.0));
    write_file(scratch / "rocking.csv", csv);
    const std::string recording = scratch / "rocking.h5";
    REQUIRE(footing_says({"import", scratch / "rocking.csv", "--out", recording}).exit_code == 0);
    CHECK(tells(footing_says({"steadiness", recording}), "Nobody stood still"));
    CHECK(json::parse(footing_says({"steadiness", recording, "--json", "-"}).out).at("stood_still") == false);
}
