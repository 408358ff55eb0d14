#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "acquisition/import/csv_import.h"
#include "acquisition/record/recording_reader.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/pressure/load_reducer.h"
#include "tests/support/child_process.h"
#include "tests/support/open_data.h"

// Recordings by others, turned into the tables of the import's contract, imported, and read back.

using namespace footing;
namespace fs = std::filesystem;

namespace {

double number(const test::TableRow& row, const std::string& column) {
    return std::stod(row.at(column));
}

struct Imported {
    test::ScratchFolder folder;
    RecordingInfo info;
    FrameBlock frames;

    Imported(const std::string& csv, const std::string& layout = "") {
        const fs::path at = folder.path();
        std::ofstream(at / "t.csv") << csv;
        CsvImportOptions options;
        if (!layout.empty()) {
            std::ofstream(at / "layout.json") << layout;
            options.layout = at / "layout.json";
        }
        const auto summary = import_csv(at / "t.csv", at / "t.h5", options);
        if (!summary) FAIL(sentence(summary.problem()));
        CHECK(summary.value().doubts.empty());  // people on plates, in newtons
        auto reader = RecordingReader::open(at / "t.h5");
        if (!reader) FAIL(sentence(reader.problem()));
        info = reader.value().info();
        auto block = reader.value().read(0, reader.value().frame_count());
        REQUIRE(block.ok());
        frames = std::move(block).value();
    }
    [[nodiscard]] const std::vector<double>& values() const {
        return std::get<std::vector<double>>(frames.values);
    }
};

std::optional<std::vector<test::TableRow>> rows(const std::string& path) {
    const auto text = test::open_data(path);
    if (!text) {
        MESSAGE("open data are not here; not checked: " << path);
        return std::nullopt;
    }
    return test::table_rows(*text);
}

}  // namespace

// Two plates, quiet standing: dos Santos, Fukuchi, Fukuchi & Duarte (2017), PeerJ 5:e3626 (CC BY 4.0). There
// y is up, z to the subject's right, x forward, places in metres.
TEST_CASE("standing on two plates: forces and CoP come back to 1e-9") {
    for (const char* trial : {"OR1", "CR2", "OF3", "CF1"}) {
        const auto table = rows(fmt::format("two_plate_standing/PDS13{}grf.txt.gz", trial));
        if (!table) return;
        std::string csv = "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm\n";
        for (const test::TableRow& row : *table) {
            csv +=
                fmt::format("{},{},{},{},{},{},{}\n", number(row, "Time"), number(row, "LGRF_Y"),
                            number(row, "RGRF_Y"), 1000 * number(row, "LCOP_Z"), 1000 * number(row, "LCOP_X"),
                            1000 * number(row, "RCOP_Z"), 1000 * number(row, "RCOP_X"));
        }
        const Imported got(csv);
        REQUIRE(got.frames.size() == 6000);
        CHECK(got.info.device.rate_hz == 100.0);
        CHECK(got.info.gaps.empty());
        double worst = 0.0;
        double net_worst_m = 0.0;
        for (std::size_t i = 0; i < table->size(); ++i) {
            const test::TableRow& row = (*table)[i];
            const double* left = got.values().data() + i * 12;
            const double* right = left + 6;
            const auto compare = [&](double found, double wanted) {
                worst = std::max(worst, std::abs(found - wanted) / std::max(1e-3, std::abs(wanted)));
            };
            compare(left[2], number(row, "LGRF_Y"));
            compare(right[2], number(row, "RGRF_Y"));
            compare(-left[4] / left[2], number(row, "LCOP_Z"));
            compare(left[3] / left[2], number(row, "LCOP_X"));
            compare(-right[4] / right[2], number(row, "RCOP_Z"));
            compare(right[3] / right[2], number(row, "RCOP_X"));
            // The authors' own net CoP; theirs differs from the weighted mean by up to 1e-5 m.
            net_worst_m = std::max(net_worst_m, std::abs(-(left[4] + right[4]) / (left[2] + right[2]) -
                                                         number(row, "COPNET_Z")));
            CHECK(got.frames.stamps[i].device_time_us == i * 10000);
        }
        CHECK(worst < 1e-9);
        CHECK(net_worst_m < 1e-5);
    }
}

// One plate: Santos & Duarte (2016), PeerJ 4:e2648 (CC BY 4.0). Time runs from 0.010 s; CoP in cm.
TEST_CASE("standing on one plate: load and CoP come back to 1e-9") {
    const auto table = rows("posturography/BDS00002.txt.gz");
    if (!table) return;
    std::string csv = "cop_y_mm,cop_x_mm,total_n,time_s\n";
    for (const test::TableRow& row : *table) {
        csv += fmt::format("{},{},{},{}\n", 10 * number(row, "COPx[cm]"), 10 * number(row, "COPy[cm]"),
                           number(row, "Fz[N]"), number(row, "Time[s]"));
    }
    const Imported got(csv);
    REQUIRE(got.frames.size() == 6000);
    CHECK(got.info.device.rate_hz == 100.0);
    CHECK(got.frames.stamps.front().device_time_us == 10000);
    CHECK(got.frames.stamps.back().device_time_us == 60'000'000);
    double worst = 0.0;
    for (std::size_t i = 0; i < table->size(); ++i) {
        const double* plate = got.values().data() + i * 6;
        const test::TableRow& row = (*table)[i];
        worst = std::max({worst, std::abs(plate[2] / number(row, "Fz[N]") - 1.0),
                          std::abs(plate[3] / plate[2] * 100.0 - number(row, "COPx[cm]")) / 10.0,
                          std::abs(-plate[4] / plate[2] * 100.0 - number(row, "COPy[cm]")) / 10.0});
        // And the file's own moment about its x axis, to the print rounding: Mx = Fz y.
        CHECK(std::abs(-plate[4] - number(row, "Mx[Nm]")) < 2e-5);
    }
    CHECK(worst < 1e-9);
}

// A plate with four sensors, volts: Duarte & Watanabe, Notes on Scientific Computing for Biomechanics and
// Motor Control (CC BY 4.0); offsets and sensitivities from the notebook there. The reference's CoP is that
// at the top surface, which the horizontal force shifts from the sensors' plane by Fx az0 / Fz.
TEST_CASE("a plate on four sensors gives the reference's load and CoP") {
    const auto table = rows("raw_and_jump/*_fp_data.txt.gz");
    if (!table) return;
    const auto reference = rows("raw_and_jump/*_fp_data.reference.csv.gz");
    const double mv_per_n[] = {3.898, 3.889, 3.885, 3.891};
    const double az0_m = -0.048;
    const std::string layout =
        R"({"name": "four sensors", "serial": 1, "rate_hz": 100, "plates": [{"name": "whole",
        "centre_mm": [0, 0], "cells": [{"x_mm": 120, "y_mm": 200}, {"x_mm": -120, "y_mm": 200},
        {"x_mm": -120, "y_mm": -200}, {"x_mm": 120, "y_mm": -200}]}]})";
    std::string csv = "time_s,cell_1,cell_2,cell_3,cell_4\n";
    for (const test::TableRow& row : *table) {
        csv += row.at("Time (s)");
        for (int i = 0; i < 4; ++i)
            csv += fmt::format(",{}", 1000 * number(row, fmt::format("Channel {}", 4 + i)) / mv_per_n[i]);
        csv += "\n";
    }
    const Imported got(csv, layout);
    REQUIRE(got.frames.size() == 2000);
    CHECK(got.info.device.layout.kind == FrameKind::cells);
    double worst_n = 0.0;
    double worst_mm = 0.0;
    for (std::size_t i = 0; i < got.frames.size(); ++i) {
        double load = 0.0;
        double x = 0.0;
        double y = 0.0;
        for (std::size_t cell = 0; cell < 4; ++cell) {
            const double force = got.values()[i * 4 + cell];
            const PointM at = cell_position(got.info.device.layout.plates[0], cell);
            load += force;
            x += force * at.x_m;
            y += force * at.y_m;
        }
        const test::TableRow& wanted = (*reference)[i];
        worst_n = std::max(worst_n, std::abs(load - number(wanted, "Fz_N")));
        const double x_top = x / load + number(wanted, "Fx_N") * az0_m / load;
        const double y_top = y / load + number(wanted, "Fy_N") * az0_m / load;
        worst_mm = std::max({worst_mm, std::abs(1000 * x_top - number(wanted, "copx_plain_mm")),
                             std::abs(1000 * y_top - number(wanted, "copy_plain_mm"))});
    }
    CHECK(worst_n < 1e-5);  // print rounding of the reference
    CHECK(worst_mm < 1e-5);
}

// A pressure mat: Telfer & Li (2023), Scientific Reports 13:16776, example export (MIT). The device's own
// printed totals; CoP from the sensels with y counted down the rows.
TEST_CASE("a sensor grid gives the device's totals and the CoP") {
    const auto table = rows("sensel/mat_walk_5mm_100Hz.csv.gz");
    if (!table) return;
    const auto reference = rows("sensel/mat_walk_5mm_100Hz.reference.csv");
    std::string layout = R"({"name": "mat", "serial": 1, "rate_hz": 100, "newtons_per_count": 0.025,
        "grid": {"rows": 95, "columns": 64, "pitch_mm": [5, 5], "centre_mm": [0, 0]}})";
    std::string csv = "frame,row,col,value\n";
    for (const test::TableRow& row : *table) {
        csv +=
            row.at("frame") + "," + row.at("row") + "," + row.at("col") + "," + row.at("pressure_kPa") + "\n";
    }
    const Imported got(csv, layout);
    REQUIRE(got.frames.size() == 106);
    const auto& counts = std::get<std::vector<std::uint16_t>>(got.frames.values);
    const Grid& grid = *got.info.device.layout.grid;
    for (std::size_t i = 0; i < got.frames.size(); ++i) {
        double load = 0.0;
        double x = 0.0;
        double y = 0.0;
        for (std::size_t element = 0; element < 95 * 64; ++element) {
            const double force = counts[i * 95 * 64 + element] * 0.025;
            const PointM at = element_position(grid, element / 64, element % 64);
            load += force;
            x += force * at.x_m;
            y += force * at.y_m;
        }
        const test::TableRow& wanted = (*reference)[i];
        CHECK(load == doctest::Approx(number(wanted, "force_sensel_sum_N")).epsilon(1e-9));
        CHECK(std::abs(load - number(wanted, "force_device_N")) < 0.0051);  // the device prints two decimals
        CHECK(std::abs(1000 * x / load + 160.0 - number(wanted, "cop_x_mm")) < 1e-5);
        CHECK(std::abs(237.5 - 1000 * y / load - number(wanted, "cop_y_mm")) < 1e-5);
    }
}

// Seven plates in a walkway, of which four were stepped on by alternating feet: Duarte & Watanabe, Notes on
// Scientific Computing for Biomechanics and Motor Control (CC BY 4.0). y is up, places in mm. Plates 6 and 3
// bear one foot, 5 and 4 the other.
TEST_CASE("walking over a row of plates: contacts, shares and CoP of the reference") {
    const auto text = test::open_data("walkway/walk1.forces.gz");
    const auto contacts = rows("walkway/walk1.contacts.tsv");
    const auto combined = rows("walkway/walk1.combined.reference.csv");
    if (!text || !contacts || !combined) return;
    const std::vector<test::TableRow> table = test::table_rows(text->substr(text->find("#Sample")));
    REQUIRE(table.size() == 1092);
    std::string csv = "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm\n";
    for (std::size_t i = 0; i < table.size(); ++i) {
        std::string loads;
        std::string places;
        for (const auto& pair : {std::pair(6, 3), std::pair(5, 4)}) {
            double load_n = 0.0;
            double z = 0.0;
            double x = 0.0;
            for (const int plate : {pair.first, pair.second}) {
                const double one_n = number(table[i], fmt::format("FY{}", plate));
                load_n += one_n;
                z += one_n * number(table[i], fmt::format("Z{}", plate));
                x += one_n * number(table[i], fmt::format("X{}", plate));
            }
            loads += fmt::format(",{}", load_n);
            places += load_n > 0.0 ? fmt::format(",{},{}", z / load_n, x / load_n) : ",,";
        }
        csv += fmt::format("{}{}{}\n", static_cast<double>(i) / 450.0, loads, places);
    }
    const Imported got(csv);
    REQUIRE(got.frames.size() == 1092);
    CHECK(got.info.device.rate_hz == doctest::Approx(450.0).epsilon(1e-9));
    LoadReducer reducer(got.info.device.layout);
    std::vector<LoadSample> samples;
    for (std::size_t i = 0; i < got.frames.size(); ++i)
        samples.push_back(reducer.reduce(std::get<std::span<const double>>(got.frames.frame(i).values)));

    double worst_n = 0.0;
    double worst_points = 0.0;
    double worst_mm = 0.0;
    std::size_t shares = 0;
    for (const test::TableRow& row : *combined) {
        const LoadSample& sample = samples[static_cast<std::size_t>(std::stoul(row.at("sample")))];
        const double total_n = number(row, "FY_total_N");
        worst_n = std::max(worst_n, std::abs(sample.total_n - total_n));
        if (row.at("share_plate6_pct").empty() || total_n < 100.0) continue;
        const double left = number(row, "share_plate6_pct") + number(row, "share_plate3_pct");
        worst_points = std::max(worst_points, std::abs(100.0 * lead_share(sample, Hand::right) - left));
        REQUIRE(sample.cop);
        worst_mm = std::max({worst_mm, std::abs(1e3 * sample.cop->x_m - number(row, "copz_mm")),
                             std::abs(1e3 * sample.cop->y_m - number(row, "copx_mm"))});
        ++shares;
    }
    CHECK(shares > 500);
    CHECK(worst_n < 1e-4);
    CHECK(worst_points < 1e-5);
    CHECK(worst_mm < 0.01);

    // Each foot's contacts: where its load first and last passes 20 N, and its peak, on the plate in
    // question.
    for (const test::TableRow& contact : *contacts) {
        const int plate = std::stoi(contact.at("plate"));
        const bool is_left = plate == 6 || plate == 3;
        const double from_s = number(contact, "first_s");
        const double to_s = number(contact, "last_s");
        std::size_t frames = 0;
        double peak_n = 0.0;
        double impulse_n_s = 0.0;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const double time_s = static_cast<double>(i) / 450.0;
            const double load_n = is_left ? samples[i].left_n : samples[i].right_n;
            if (time_s < from_s - 1e-6 || time_s > to_s + 1e-6 || load_n <= 20.0) continue;
            ++frames;
            peak_n = std::max(peak_n, load_n);
            impulse_n_s += load_n / 450.0;
        }
        CAPTURE(plate);
        CHECK(std::abs(static_cast<double>(frames) - number(contact, "n_frames_FY_gt_20N")) <= 0.0);
        CHECK(peak_n == doctest::Approx(number(contact, "peak_FY_N")).epsilon(1e-6));
        CHECK(impulse_n_s == doctest::Approx(number(contact, "vertical_impulse_Ns")).epsilon(0.003));
    }
}

// Eight sensors under each foot: Yogev et al. (2005), Eur J Neurosci 22:1248; PhysioNet gaitpdb (ODC-By 1.0).
TEST_CASE("walking on insoles, imported as cells: printed totals, share and CoP of the reference") {
    const auto places = rows("insole/sensor_positions.tsv");
    if (!places) return;
    for (const std::string trial : {"GaCo01_01", "GaCo02_01"}) {
        const auto text = test::open_data("insole/" + trial + ".txt.gz");
        const auto reference = rows("insole/" + trial + ".every50.reference.csv");
        REQUIRE(text);
        std::string cells[2];
        for (const test::TableRow& place : *places) {
            std::string& foot = cells[place.at("sensor").front() == 'L' ? 0 : 1];
            foot += fmt::format("{}{{\"x_mm\": {}, \"y_mm\": {}}}", foot.empty() ? "" : ", ",
                                number(place, "x_arb"), number(place, "y_arb"));
        }
        const std::string layout = fmt::format(
            R"({{"name": "insoles", "plates": [{{"name": "left", "centre_mm": [0, 0], "cells": [{}]}},
            {{"name": "right", "centre_mm": [0, 0], "cells": [{}]}}]}})",
            cells[0], cells[1]);
        std::string csv = "time_s";
        for (int i = 1; i <= 16; ++i) csv += fmt::format(",cell_{}", i);
        csv += ",left_sum,right_sum\n";
        std::vector<std::array<double, 2>> printed;
        std::istringstream lines(*text);
        for (std::string line; std::getline(lines, line);) {
            std::istringstream words(line);
            std::vector<double> values;
            for (double one = 0.0; words >> one;) values.push_back(one);
            REQUIRE(values.size() == 19);
            printed.push_back({values[17], values[18]});
            std::ranges::replace(line, '\t', ',');
            if (line.back() == '\r') line.pop_back();
            csv += line + "\n";
        }
        const Imported got(csv, layout);
        REQUIRE(got.frames.size() == 12119);
        // The times end at 121.1715 s.
        CHECK(got.info.device.rate_hz == doctest::Approx(12118.0 / 121.1715).epsilon(1e-6));
        LoadReducer reducer(got.info.device.layout);
        double worst_n = 0.0;
        std::vector<LoadSample> samples;
        for (std::size_t i = 0; i < got.frames.size(); ++i) {
            samples.push_back(reducer.reduce(std::get<std::span<const double>>(got.frames.frame(i).values)));
            worst_n = std::max({worst_n, std::abs(samples[i].left_n - printed[i][0]),
                                std::abs(samples[i].right_n - printed[i][1])});
        }
        CHECK(worst_n < 1e-9);
        for (const test::TableRow& row : *reference) {
            const LoadSample& sample = samples[static_cast<std::size_t>(std::stoul(row.at("row")))];
            CHECK(std::abs(100.0 * lead_share(sample, Hand::right) - number(row, "left_share_pct")) < 1e-6);
            REQUIRE(sample.cop);
            CHECK(std::abs(1e3 * sample.cop->x_m - number(row, "cop_x_arb")) < 1e-5);
            CHECK(std::abs(1e3 * sample.cop->y_m - number(row, "cop_y_arb")) < 1e-5);
        }
    }
}
