#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

#include "acquisition/import/csv_import.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"

using namespace footing;
namespace fs = std::filesystem;

namespace {

/// A folder with a table in it.
struct Import {
    test::ScratchFolder folder;
    fs::path csv = fs::path(folder.path()) / "swings.csv";
    fs::path recording = fs::path(folder.path()) / "swings.h5";
    CsvImportOptions options;

    void write(const std::string& text, const char* name = "swings.csv") const {
        std::ofstream(fs::path(folder.path()) / name, std::ios::binary) << text;
    }
    Result<CsvImportSummary> run() const { return import_csv(csv, recording, options); }
    [[nodiscard]] std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()));
    }
};

std::string two_feet(int lines, int skip_from = -1, int skip_to = -1) {
    std::string text = "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm\n";
    for (int i = 0; i < lines; ++i) {
        if (i >= skip_from && i < skip_to) continue;
        const double left = 350.0 + 0.37 * (i % 101);
        text += std::to_string(i * 0.01) + "," + std::to_string(left) + "," + std::to_string(700.0 - left) +
                ",-180.25,12.5,181.75,-3.125\n";
    }
    return text;
}

}  // namespace

TEST_CASE("an imported table is a recording like any other") {
    Import import;
    import.options.hand = Hand::left;
    import.write(two_feet(5000, 2000, 2010));
    const auto summary = import.run();
    if (!summary) FAIL(sentence(summary.problem()));
    CHECK(summary.value().frames == 4990);
    CHECK(summary.value().gaps == 1);
    auto reader = RecordingReader::open(import.recording);
    if (!reader) FAIL(sentence(reader.problem()));
    const RecordingInfo& info = reader.value().info();
    CHECK(info.hand == Hand::left);
    CHECK(info.origin == "imported from swings.csv");
    CHECK(info.outcome == RecordingOutcome::lossy);
    CHECK(info.cause == "10 lines are missing from the table, in 1 gap");
    REQUIRE(info.gaps.size() == 1);
    CHECK(info.gaps[0] == Gap{1999, 10, 19990000, 20100000});
    CHECK(info.losses.lost == 10);
    CHECK(info.device.rate_hz == 100.0);
    CHECK(info.device.layout.plates[0].name == "left");
    CHECK(info.start.utc_ns > 1'700'000'000LL * ns_per_s);
    REQUIRE(reader.value().frame_count() == 4990);
    const auto block = reader.value().read(0, 4990);
    REQUIRE(block.ok());
    const auto& values = std::get<std::vector<double>>(block.value().values);
    CHECK(values[2] == 350.0);
    CHECK(-values[4] / values[2] == doctest::Approx(-0.18025).epsilon(1e-14));
    CHECK(values[3] / values[2] == doctest::Approx(0.0125).epsilon(1e-14));
    CHECK(std::isnan(values[0]));
    CHECK(block.value().stamps[2000].counter == 2010);
    CHECK(block.value().stamps[2000].device_time_us == 20100000);
    CHECK(import.files() == 2);
}

TEST_CASE("cells come with the layout's places") {
    Import import;
    import.write(R"({"name": "board", "serial": 12, "newtons_per_count": 0.25, "plates": [
        {"name": "left", "centre_mm": [-210, 0], "cells": [{"x_mm": 0, "y_mm": 100}, {"x_mm": 0, "y_mm": -100}]},
        {"name": "right", "centre_mm": [210, 0], "cells": [{"x_mm": 0, "y_mm": 100}, {"x_mm": 0, "y_mm": -100}]}]})",
                 "layout.json");
    import.options.layout = fs::path(import.folder.path()) / "layout.json";
    import.write("time_s,cell_1,cell_2,cell_3,cell_4,trigger\n0,-5,6,7,8,0\n0.005,9,10,11,12,1\n");
    const auto summary = import.run();
    if (!summary) FAIL(sentence(summary.problem()));
    auto reader = RecordingReader::open(import.recording);
    REQUIRE(reader.ok());
    CHECK(reader.value().info().device.serial == 12);
    CHECK(reader.value().info().device.rate_hz == 200.0);
    CHECK(reader.value().info().device.newtons_per_count == 0.25);
    CHECK(reader.value().info().outcome == RecordingOutcome::clean);
    const auto block = reader.value().read(0, 2);
    REQUIRE(block.ok());
    CHECK(std::get<std::vector<std::int32_t>>(block.value().values) ==
          std::vector<std::int32_t>{-5, 6, 7, 8, 9, 10, 11, 12});
    CHECK(block.value().stamps[1].inputs == trigger_bit);
}

TEST_CASE("a table of bad form leaves nothing behind, and says where and what to do") {
    const std::string good = two_feet(5000);
    const std::vector<std::pair<const char*, std::string>> bad = {
        {"empty", ""},
        {"header only", good.substr(0, good.find('\n') + 1)},
        {"text in a number late in the file", good + "50.00,four hundred,300,1,2,3,4\n"},
        {"not a number late in the file", good + "50.00,nan,300,1,2,3,4\n"},
        {"time backwards late in the file", good + "49.00,400,300,1,2,3,4\n"},
        {"a value too few late in the file", good + "50.00,400,300,1,2,3\n"},
        {"cut off in the middle of a line", good.substr(0, good.size() - 9)},
        {"compressed", std::string("\x1F\x8B\x08\x00\x00\x00", 6)},
        {"a recording", "\x89HDF\r\n\x1A\n"},
        {"binary", std::string(5000, '\0')},
        {"noise", std::string("\xFF\xFE\x00\x01,\x02\n\x03", 8)},
    };
    for (const auto& table : bad) {
        CAPTURE(table.first);
        Import import;
        import.write(table.second);
        const auto summary = import.run();
        REQUIRE_FALSE(summary.ok());
        CHECK(summary.problem().kind == ProblemKind::bad_input);
        CHECK(summary.problem().place.find("swings.csv") != std::string::npos);
        CHECK_FALSE(summary.problem().what.empty());
        CHECK_FALSE(summary.problem().remedy.empty());
        CHECK(import.files() == 1);
    }
}

TEST_CASE("what is no file is refused") {
    Import import;
    CHECK(import.run().problem().kind == ProblemKind::bad_input);  // does not exist
    import.csv = import.folder.path();
    CHECK(import.run().problem().what == "is a folder");
    import.csv = "/dev/null";
    CHECK(import.run().problem().kind == ProblemKind::bad_input);
    CHECK(import.files() == 0);
}

TEST_CASE("nothing existing is overwritten") {
    Import import;
    import.write(two_feet(100));
    import.write("mine", "swings.h5");
    const auto summary = import.run();
    REQUIRE_FALSE(summary.ok());
    CHECK(summary.problem().place.find("swings.h5") != std::string::npos);
    CHECK(fs::file_size(import.recording) == 4);
    CHECK(import.files() == 2);
}
