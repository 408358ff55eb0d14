#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/open_data.h"

using namespace footing::test;
using nlohmann::json;

// Published results of quiet standing, through import, HDF5 and `footing steadiness`.
// One plate: Santos & Duarte 2016, PeerJ 4:e2648. Two plates: dos Santos et al. 2017, PeerJ 5:e3626. Both CC
// BY 4.0.

namespace {

/// Through the whole program: CSV -> recording -> measures.
json steadiness_of(const std::string& csv) {
    const ScratchFolder scratch;
    write_file(scratch / "standing.csv", csv);
    const auto imported =
        run_program({FOOTING_PROGRAM, "import", scratch / "standing.csv", "--out", scratch / "standing.h5"});
    REQUIRE_MESSAGE(imported.exit_code == 0, imported.err);
    const auto measured =
        run_program({FOOTING_PROGRAM, "steadiness", scratch / "standing.h5", "--json", "-"});
    REQUIRE_MESSAGE(measured.exit_code == 0, measured.err);
    return json::parse(measured.out);
}

void check_relative(const json& measures, const char* name, const std::string& published, double tolerance) {
    const double expected = std::stod(published);
    const double measured = measures.at(name).get<double>();
    CAPTURE(name);
    CAPTURE(expected);
    CAPTURE(measured);
    CHECK(std::abs(measured / expected - 1.0) < tolerance);
}

double number(const TableRow& row, const char* name) {
    return std::stod(row.at(name));
}

}  // namespace

TEST_CASE("one plate: area, speed and mean frequency as their authors published them") {
    const auto results = open_data("posturography/authors_results.tsv");
    if (!results) {
        MESSAGE("skipped: the open data are not here");
        return;
    }
    for (const TableRow& published : table_rows(*results)) {
        CAPTURE(published.at("Trial"));
        const auto trial = open_data("posturography/" + published.at("Trial") + ".txt.gz");
        REQUIRE(trial.has_value());
        // Theirs: x ahead, y to a side, cm. Ours: x to the right, y ahead, mm.
        std::string csv = "time_s,total_n,cop_x_mm,cop_y_mm\n";
        for (const TableRow& row : table_rows(*trial)) {
            csv += fmt::format("{},{},{},{}\n", row.at("Time[s]"), row.at("Fz[N]"),
                               number(row, "COPy[cm]") * 10, number(row, "COPx[cm]") * 10);
        }
        const json measures = steadiness_of(csv);
        CHECK(measures.at("samples") == 6000);
        CHECK(measures.at("left_share").is_null());
        CHECK(measures.at("short_window") == false);
        CHECK(measures.at("stood_still") == true);
        check_relative(measures, "area_cm2", published.at("COParea"), 1e-9);
        check_relative(measures, "velocity_cm_s", published.at("COPvelo"), 1e-9);
        check_relative(measures, "mean_frequency_hz", published.at("COPmfreq"), 1e-9);
    }
}

TEST_CASE("two plates: the net centre of pressure gives the published measures") {
    const auto results = open_data("two_plate_standing/authors_results.tsv");
    if (!results) {
        MESSAGE("skipped: the open data are not here");
        return;
    }
    for (const TableRow& published : table_rows(*results)) {
        CAPTURE(published.at("Trial"));
        const auto trial = open_data("two_plate_standing/" + published.at("Trial") + "grf.txt.gz");
        REQUIRE(trial.has_value());
        // Theirs: X ahead, Y up, Z to the right, metres.
        std::string csv = "time_s,total_n,cop_x_mm,cop_y_mm\n";
        for (const TableRow& row : table_rows(*trial)) {
            csv += fmt::format("{},{},{},{}\n", row.at("Time"), row.at("GRFNET_Y"),
                               number(row, "COPNET_Z") * 1000, number(row, "COPNET_X") * 1000);
        }
        const json measures = steadiness_of(csv);
        check_relative(measures, "area_cm2", published.at("COParea"), 1e-9);
        check_relative(measures, "velocity_cm_s", published.at("COPvelo"), 1e-9);
        check_relative(measures, "mean_frequency_hz", published.at("COPmfreq"), 1e-9);
    }
}

TEST_CASE("two plates: left share and combined centre of pressure as an independent computation has them") {
    const auto results = open_data("two_plate_standing/numpy_reference.tsv");
    if (!results) {
        MESSAGE("skipped: the open data are not here");
        return;
    }
    for (const TableRow& reference : table_rows(*results)) {
        CAPTURE(reference.at("Trial"));
        const auto trial = open_data("two_plate_standing/" + reference.at("Trial") + "grf.txt.gz");
        REQUIRE(trial.has_value());
        std::string csv = "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm\n";
        for (const TableRow& row : table_rows(*trial)) {
            csv += fmt::format("{},{},{},{},{},{},{}\n", row.at("Time"), row.at("LGRF_Y"), row.at("RGRF_Y"),
                               number(row, "LCOP_Z") * 1000, number(row, "LCOP_X") * 1000,
                               number(row, "RCOP_Z") * 1000, number(row, "RCOP_X") * 1000);
        }
        const json measures = steadiness_of(csv);
        // The reference prints nine digits.
        const double share_pct = measures.at("left_share").get<double>() * 100.0;
        CHECK(share_pct == doctest::Approx(number(reference, "left_share_mean_pct")).epsilon(1e-8));
        check_relative(measures, "area_cm2", reference.at("area95_cm2"), 1e-8);
        check_relative(measures, "path_cm", reference.at("path_cm"), 1e-8);
        check_relative(measures, "mean_frequency_hz", reference.at("mean_freq_hz"), 1e-8);
    }
}
