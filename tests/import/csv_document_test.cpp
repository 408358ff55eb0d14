#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "acquisition/import/csv_document.h"
#include "acquisition/import/layout_file.h"

using namespace footing;

namespace {

constexpr const char* four_cells = R"({"name": "board", "serial": 7, "rate_hz": 100,
  "plates": [{"name": "whole", "centre_mm": [0, 0], "cells": [{"x_mm": -200, "y_mm": 300}, {"x_mm": 200, "y_mm": 300},
  {"x_mm": -200, "y_mm": -300}, {"x_mm": 200, "y_mm": -300}]}]})";
constexpr const char* small_grid =
    R"({"name": "mat", "rate_hz": 50, "grid": {"rows": 2, "columns": 3, "pitch_mm": [10, 10]}})";

std::optional<DeviceDescription> layout(const std::string& json) {
    auto parsed = parse_layout(json, "layout.json");
    REQUIRE(parsed.ok());
    return parsed.value();
}

std::string with_newtons_per_count(std::string json, const char* number) {
    return json.insert(1, fmt::format("\"newtons_per_count\": {}, ", number));
}

CsvDocument document(std::string_view text, std::optional<DeviceDescription> given = std::nullopt) {
    auto checked = CsvDocument::check(text, "t.csv", std::move(given));
    if (!checked) FAIL(sentence(checked.problem()));
    return std::move(checked).value();
}

Problem problem_of(std::string_view text, std::optional<DeviceDescription> given = std::nullopt) {
    const auto checked = CsvDocument::check(text, "t.csv", std::move(given));
    REQUIRE_FALSE(checked.ok());
    CHECK(checked.problem().kind == ProblemKind::bad_input);
    CHECK(sentence(checked.problem()).find("t.csv") == 0);
    return checked.problem();
}

FrameBlock all_of(const CsvDocument& from) {
    FrameBlock all;
    const Outcome done = from.each_block([&](const FrameBlock& block) -> Outcome {
        if (all.stamps.empty()) {
            all = block;
            return Done{};
        }
        all.stamps.insert(all.stamps.end(), block.stamps.begin(), block.stamps.end());
        std::visit(
            [&](auto& values) {
                const auto& more = std::get<std::decay_t<decltype(values)>>(block.values);
                values.insert(values.end(), more.begin(), more.end());
            },
            all.values);
        return Done{};
    });
    REQUIRE(done.ok());
    return all;
}

const std::vector<double>& doubles(const FrameBlock& block) {
    return std::get<std::vector<double>>(block.values);
}

}  // namespace

// Mx = Fz y, My = -Fz x: the definition of the CoP of a plate (see tests of analysis/pressure), solved for
// the moments.
TEST_CASE("two feet become two plates with load and moments") {
    const CsvDocument table = document(
        "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm,trigger\n"
        "0,420,280,-150,20,150,-40,0\n"
        "0.01,400,300,-151,21,149,-41,1\n"
        "0.02,0,700,,,140,10,0\n");
    CHECK(table.device().layout.kind == FrameKind::components);
    REQUIRE(table.device().layout.plates.size() == 2);
    CHECK(plate_sides(table.device().layout)[0] == PlateSide::left);
    CHECK(plate_sides(table.device().layout)[1] == PlateSide::right);
    CHECK(table.device().layout.plates[0].centre == PointM{0.0, 0.0});
    CHECK(table.device().rate_hz == 100.0);
    const FrameBlock all = all_of(table);
    REQUIRE(all.size() == 3);
    REQUIRE(all.values_per_frame == 12);
    const std::vector<double>& values = doubles(all);
    CHECK(values[2] == 420.0);
    CHECK(values[3] == doctest::Approx(420.0 * 0.020).epsilon(1e-15));
    CHECK(values[4] == doctest::Approx(420.0 * 0.150).epsilon(1e-15));
    CHECK(values[8] == 280.0);
    CHECK(-values[10] / values[8] == doctest::Approx(0.150).epsilon(1e-15));
    CHECK(values[9] / values[8] == doctest::Approx(-0.040).epsilon(1e-15));
    CHECK(std::isnan(values[0]));  // what the table does not tell is not invented
    CHECK(std::isnan(values[24 + 3]));
    CHECK(values[24 + 8] == 700.0);
    CHECK(all.stamps[1].inputs == trigger_bit);
    CHECK(all.stamps[2].inputs == 0);
    CHECK(all.stamps[2].device_time_us == 20000);
    CHECK(all.stamps[2].counter == 2);
    CHECK(all.stamps[2].host_time_ns == 0);
}

TEST_CASE("columns come in any order, and CoP columns may be absent") {
    const CsvDocument table =
        document("right_n,comment,time_s,left_n\r\n300,\"a, b\",5.0,400\r\n301,,5.02,401\r\n\r\n");
    const FrameBlock all = all_of(table);
    CHECK(doubles(all)[2] == 400.0);
    CHECK(doubles(all)[8] == 300.0);
    CHECK(std::isnan(doubles(all)[3]));
    CHECK(std::isnan(doubles(all)[10]));
    CHECK(all.stamps[0].device_time_us == 5'000'000);
    CHECK(table.device().rate_hz == 50.0);
    REQUIRE(table.notes().size() == 1);
    CHECK(table.notes()[0] == "columns that were not used: comment");
}

TEST_CASE("a total with its CoP becomes one plate") {
    const CsvDocument table = document("time_s,total_n,cop_x_mm,cop_y_mm\n0,700,10,-20\n0.001,710,11,-21\n");
    CHECK(table.device().layout.plates.size() == 1);
    CHECK(plate_sides(table.device().layout)[0] == PlateSide::whole);
    CHECK(table.device().rate_hz == 1000.0);
    const FrameBlock all = all_of(table);
    CHECK(-doubles(all)[4] / doubles(all)[2] == doctest::Approx(0.010).epsilon(1e-15));
    CHECK(doubles(all)[3] / doubles(all)[2] == doctest::Approx(-0.020).epsilon(1e-15));
}

TEST_CASE("whole frames of a grid: elements row by row, with time and trigger") {
    const char* text =
        "time_s,cell_1,cell_2,cell_3,cell_4,cell_5,cell_6,trigger\n"
        "0,1,2,3,4,5,6,0\n0.02,0,0,9,0,0,1,1\n0.04,1,1,1,1,1,1,0\n";
    const CsvDocument table = document(text, layout(small_grid));
    CHECK(table.device().layout.kind == FrameKind::grid);
    CHECK(table.device().rate_hz == 50.0);
    const FrameBlock newtons = all_of(table);
    CHECK(newtons.values_per_frame == 6);
    CHECK(doubles(newtons)[6 + 2] == 9.0);
    CHECK(newtons.stamps[1].inputs == trigger_bit);
    const FrameBlock counts = all_of(document(text, layout(with_newtons_per_count(small_grid, "0.5"))));
    CHECK(std::get<std::vector<std::uint16_t>>(counts.values)[5] == 6);
    // A negative number is no count of a mat.
    const FrameBlock negative =
        all_of(document("time_s,cell_1,cell_2,cell_3,cell_4,cell_5,cell_6\n"
                        "0,-1,2,3,4,5,6\n0.02,1,2,3,4,5,6\n",
                        layout(with_newtons_per_count(small_grid, "0.5"))));
    CHECK(doubles(negative)[0] == -0.5);
}

TEST_CASE("values that are turned into newtons are told why, truly") {
    const auto note_of = [](const std::string& first) {
        const CsvDocument table = document(
            "time_s,cell_1,cell_2,cell_3,cell_4,cell_5,cell_6\n0," + first + ",2,3,4,5,6\n0.02,1,2,3,4,5,6\n",
            layout(with_newtons_per_count(small_grid, "0.5")));
        REQUIRE(table.notes().size() == 1);
        return table.notes()[0];
    };
    for (const char* outside : {"70000", "-5"}) {
        CHECK(note_of(outside) ==
              "some values lie outside 0 to 65535, what a count can be; all were turned into newtons by the "
              "layout's newtons_per_count");
    }
    CHECK(note_of("1.5").find("not all values are whole counts") == 0);
}

TEST_CASE("cells are newtons, or raw counts where the layout says what a count is") {
    const char* text = "time_s,cell_2,cell_1,cell_3,cell_4\n0,150,220,250,80\n0.01,150,220,250,80\n";
    const FrameBlock newtons = all_of(document(text, layout(four_cells)));
    CHECK(doubles(newtons) == std::vector<double>{220, 150, 250, 80, 220, 150, 250, 80});

    const CsvDocument counted = document(text, layout(with_newtons_per_count(four_cells, "0.5")));
    CHECK(counted.device().newtons_per_count == 0.5);
    CHECK(counted.device().serial == 7);
    const FrameBlock counts = all_of(counted);
    CHECK(std::get<std::vector<std::int32_t>>(counts.values)[0] == 220);

    // Values that are not whole are no counts.
    const CsvDocument mixed = document("time_s,cell_1,cell_2,cell_3,cell_4\n0,1.5,2,3,4\n0.01,1,2,3,4\n",
                                       layout(with_newtons_per_count(four_cells, "0.5")));
    CHECK_FALSE(mixed.device().newtons_per_count.has_value());
    CHECK(doubles(all_of(mixed))[0] == 0.75);
    CHECK(mixed.notes().size() == 1);
}

// The grid of the worked example: rows [1 2 3], [4 5 6]; sum 21 (pressure mats, F = sum of the elements).
TEST_CASE("a sparse grid becomes whole frames, those without a line empty ones") {
    const char* text =
        "frame,row,col,value\n"
        "3,1,1,1\n3,1,2,2\n3,1,3,3\n3,2,1,4\n3,2,2,5\n3,2,3,6\n"
        "5,2,3,9\n";
    const CsvDocument table = document(text, layout(small_grid));
    CHECK(table.frames() == 3);
    CHECK(table.gaps().empty());
    const FrameBlock all = all_of(table);
    CHECK(doubles(all) == std::vector<double>{1, 2, 3, 4, 5, 6, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 9});
    CHECK(all.stamps[0].counter == 3);
    CHECK(all.stamps[2].counter == 5);
    CHECK(all.stamps[0].device_time_us == 0);
    CHECK(all.stamps[2].device_time_us == 40000);
    const FrameBlock counts = all_of(document(text, layout(with_newtons_per_count(small_grid, "0.1"))));
    CHECK(std::get<std::vector<std::uint16_t>>(counts.values)[5] == 6);
}

TEST_CASE("lines that are missing from an even grid of times are gaps") {
    std::string text = "time_s,left_n,right_n\n";
    for (int i = 0; i < 1000; ++i) {
        if (i == 17 || (i >= 300 && i < 307)) continue;
        text += fmt::format("{:.3f},400,300\n", i * 0.001);
    }
    const CsvDocument table = document(text);
    CHECK(table.device().rate_hz == 1000.0);
    REQUIRE(table.gaps().size() == 2);
    CHECK(table.gaps()[0] == Gap{16, 1, 16000, 18000});
    CHECK(table.gaps()[1] == Gap{299, 7, 299000, 307000});
    CHECK(table.frames_missing() == 8);
    CHECK(all_of(table).stamps.back().counter == 999);
    CHECK(table.duration_s() == doctest::Approx(1.0));
}

TEST_CASE("times printed with few digits, and times that wander a little, are an even grid") {
    std::string text = "time_s,left_n,right_n\n";
    for (int i = 0; i < 500; ++i) text += fmt::format("{:.3f},400,300\n", i / 75.0);  // 13 or 14 ms apart
    const CsvDocument rounded = document(text);
    CHECK(rounded.gaps().empty());
    CHECK(rounded.device().rate_hz == doctest::Approx(75.0).epsilon(1e-4));

    text = "time_s,left_n,right_n\n";
    double time = -0.5;
    for (int i = 0; i < 500; ++i) {
        text += fmt::format("{:.6f},400,300\n", time);
        time += i % 7 == 3 ? 0.0099 : 0.01;
    }
    const CsvDocument wandering = document(text);
    CHECK(wandering.gaps().empty());
    CHECK(all_of(wandering).stamps.front().device_time_us == 0);  // a table may start before its own zero
    CHECK(all_of(wandering).stamps[10].device_time_us == 99900);
}

TEST_CASE("times without any even grid are taken as they come") {
    std::string text = "time_s,left_n,right_n\n";
    double time = 0.0;
    for (int i = 0; i < 200; ++i) {
        text += fmt::format("{:.6f},400,300\n", time);
        time += 0.01 + 0.004 * std::sin(i);
    }
    const CsvDocument table = document(text);
    CHECK(table.gaps().empty());
    CHECK(all_of(table).stamps.back().counter == 199);
    CHECK(table.notes().size() == 1);
}

TEST_CASE("what a table must not hold is refused at its line and column") {
    const std::string head = "time_s,left_n,right_n\n0,1,2\n";
    CHECK(problem_of("").what == "the file is empty");
    CHECK(problem_of("\n\n").what == "there are only blank lines");
    CHECK(problem_of("time_s,left_n,right_n\n").what == "there are no lines under the header");
    CHECK(problem_of(head).what == "there is only one line under the header");
    CHECK(problem_of(head + "0.01,1\n").place == "t.csv, line 3");
    CHECK(problem_of(head + "0.01,1,2,3\n").place == "t.csv, line 3");
    CHECK(problem_of(head + "0.01,heavy,2\n").place == "t.csv, line 3, column left_n");
    CHECK(problem_of(head + "0.01,1,nan\n").place == "t.csv, line 3, column right_n");
    CHECK(problem_of(head + "0.01,1,inf\n").place == "t.csv, line 3, column right_n");
    CHECK(problem_of(head + "0.01,,2\n").place == "t.csv, line 3, column left_n");
    CHECK(problem_of(head + "0.01,1e300,2\n").place == "t.csv, line 3, column left_n");
    CHECK(problem_of(head + "0.01,1,2\n\n0.005,1,2\n").place == "t.csv, line 5, column time_s");
    CHECK(problem_of(head + "0,1,2\n").what == "time stands still from 0 to 0");
    CHECK(problem_of(head + "0.01,1,2\n99999,1,2\n").place == "t.csv, line 4, column time_s");
    CHECK(problem_of("time_s,left_n,right_n,trigger\n0,1,2,0\n1,1,2,5\n").place ==
          "t.csv, line 3, column trigger");
    CHECK(problem_of("time_s,left_n\n0,1\n").place == "t.csv, line 1, column right_n");
    CHECK(problem_of("left_n,right_n\n0,1\n").place == "t.csv, line 1, column time_s");
    CHECK(problem_of("time_s,total_n,cop_x_mm\n0,1,2\n").place == "t.csv, line 1, column cop_y_mm");
    CHECK(problem_of("time_s,left_n,right_n,left_cop_x_mm\n0,1,2,3\n").place ==
          "t.csv, line 1, column left_cop_y_mm");
    CHECK(problem_of("time_s,left_n,right_n,left_n\n0,1,2,3\n").place == "t.csv, line 1, column left_n");
    CHECK(problem_of("time_s,left_n,right_n,total_n\n0,1,2,3\n").place == "t.csv, line 1");
    CHECK(problem_of("0,1,2\n0.01,1,2\n").place == "t.csv, line 1");
    CHECK(problem_of("time_s;left_n;right_n\n0;1;2\n").remedy ==
          "separate columns by commas, and use a decimal point");
    CHECK(problem_of("time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm\n0,1,2,3,\n").place ==
          "t.csv, line 2, column left_cop_y_mm");
}

TEST_CASE("cells and grids without a fitting layout are refused") {
    CHECK(problem_of("time_s,cell_1\n0,1\n").remedy.find("--layout") != std::string::npos);
    CHECK(problem_of("time_s,cell_1\n0,1\n", layout(small_grid)).place == "t.csv, line 1, column cell_2");
    CHECK(problem_of("time_s,cell_1,cell_2,cell_4\n0,1,2,3\n", layout(four_cells)).place ==
          "t.csv, line 1, column cell_3");
    CHECK(problem_of("time_s,cell_1,cell_2,cell_3,cell_4,cell_5\n", layout(four_cells)).place ==
          "t.csv, line 1, column cell_5");
    CHECK(problem_of("frame,row,col,value\n1,1,1,1\n").remedy.find("--layout") != std::string::npos);
    const std::string head = "frame,row,col,value\n1,1,1,5\n";
    CHECK(problem_of(head + "1,3,1,5\n", layout(small_grid)).place == "t.csv, line 3, column row");
    CHECK(problem_of(head + "1,0,1,5\n", layout(small_grid)).place == "t.csv, line 3, column row");
    CHECK(problem_of(head + "1,1,4,5\n", layout(small_grid)).place == "t.csv, line 3, column col");
    CHECK(problem_of(head + "1,1,1.5,5\n", layout(small_grid)).place == "t.csv, line 3, column col");
    CHECK(problem_of(head + "1,1,1,5\n", layout(small_grid)).place == "t.csv, line 3");
    CHECK(problem_of(head + "0,1,1,5\n", layout(small_grid)).place == "t.csv, line 3, column frame");
    CHECK(problem_of(head + "-1,1,1,5\n", layout(small_grid)).place == "t.csv, line 3, column frame");
    CHECK(problem_of(head + "4000000000,1,1,5\n", layout(small_grid)).place == "t.csv, line 3, column frame");
    CHECK(problem_of("frame,row,value\n1,1,1\n", layout(small_grid)).place == "t.csv, line 1, column col");
    CHECK(problem_of("frame,row,col,value\n", layout(small_grid)).what ==
          "there are no lines under the header");
    CHECK(problem_of(head,
                     layout(R"({"name": "mat", "grid": {"rows": 2, "columns": 3, "pitch_mm": [10, 10]}})"))
              .remedy.find("rate_hz") != std::string::npos);
}

TEST_CASE("a layout that is none is refused") {
    for (const char* json :
         {"", "[]", "{", "{}", R"({"plates": []})", R"({"rate_hz": "fast", "plates": [{}]})"}) {
        CAPTURE(json);
        const auto parsed = parse_layout(json, "layout.json");
        REQUIRE_FALSE(parsed.ok());
        CHECK(parsed.problem().place == "layout.json");
    }
}
