// Real people who do not swing: quiet standing on one and two plates, walking on insoles and a grid. Open
// data, sources below.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "analysis/pressure/load_reducer.h"
#include "analysis/pressure/trace_builder.h"
#include "analysis/swing/analyse_swings.h"
#include "tests/support/open_data.h"

using namespace footing;

namespace {

double number(const test::TableRow& row, const std::string& column) {
    return std::stod(row.at(column));
}

FrameStamp stamp_at(std::size_t index, double rate_hz) {
    return {index, static_cast<std::uint64_t>(std::llround(static_cast<double>(index) * 1e6 / rate_hz)), 0,
            0};
}

}  // namespace

TEST_CASE("quiet standing on two plates holds no swing, and the weight is found") {
    // dos Santos et al. 2017, PeerJ 5:e3626 (CC BY 4.0): one subject, mass 65.35 kg as the authors give it.
    // The weights of the signs were fitted to these trials too (docs/formulas.md, F22).
    int trials = 0;
    for (const std::string trial : {"PDS13OR1", "PDS13CR2", "PDS13OF3", "PDS13CF1"}) {
        const auto text = test::open_data("two_plate_standing/" + trial + "grf.txt.gz");
        if (!text) {
            MESSAGE("the open two-plate data are not here: skipped");
            return;
        }
        TraceBuilder builder(100);
        std::size_t index = 0;
        for (const test::TableRow& row : test::table_rows(*text)) {
            LoadSample sample;
            sample.left_n = number(row, "LGRF_Y");
            sample.right_n = number(row, "RGRF_Y");
            sample.total_n = sample.left_n + sample.right_n;
            sample.cop = PointM{number(row, "COPNET_Z"), number(row, "COPNET_X")};
            builder.add(stamp_at(index++, 100), sample);
        }
        const LoadTrace trace = std::move(builder).finish();
        CHECK(analyse_swings(trace, Hand::right, {}).empty());
        CHECK(analyse_swings(trace, Hand::left, {}).empty());
        const std::optional<double> weight_n = body_weight_n(trace);
        REQUIRE(weight_n);
        CHECK(*weight_n == doctest::Approx(65.35 * 9.80665).epsilon(0.02));
        ++trials;
    }
    CHECK(trials == 4);
}

TEST_CASE("quiet standing on one plate holds no swing; the CoP is that of the force and the moments") {
    // Santos & Duarte 2016, PeerJ 4:e2648 (CC BY 4.0). Their x is ahead, their y is across.
    const auto trials = test::open_data("posturography/authors_results.tsv");
    if (!trials) {
        MESSAGE("the open posturography data are not here: skipped");
        return;
    }
    PlateLayout layout;
    layout.kind = FrameKind::components;
    layout.plates = {{"plate", {0, 0}, {}}};
    for (const test::TableRow& trial : test::table_rows(*trials)) {
        const auto text = test::open_data("posturography/" + trial.at("Trial") + ".txt.gz");
        REQUIRE(text);
        LoadReducer reducer(layout);
        TraceBuilder builder(100);
        std::size_t index = 0;
        double worst_cm = 0.0;
        for (const test::TableRow& row : test::table_rows(*text)) {
            const std::vector<double> components{number(row, "Fx[N]"),  number(row, "Fy[N]"),
                                                 number(row, "Fz[N]"),  number(row, "Mx[Nm]"),
                                                 number(row, "My[Nm]"), number(row, "Mz[Nm]")};
            const LoadSample sample = reducer.reduce(components);
            REQUIRE(sample.cop);
            worst_cm = std::max({worst_cm, std::abs(100 * sample.cop->x_m - number(row, "COPx[cm]")),
                                 std::abs(100 * sample.cop->y_m - number(row, "COPy[cm]"))});
            builder.add(stamp_at(index++, 100), sample);
        }
        CHECK(worst_cm < 1.1e-6);  // the file's rounding
        CHECK(analyse_swings(std::move(builder).finish(), Hand::right, {}).empty());
    }
}

TEST_CASE("walking on insoles holds no swing, and sensor sums are the printed totals") {
    // Yogev et al. 2005, Eur J Neurosci 22:1248; PhysioNet gaitpdb (ODC-By 1.0): eight sensors under each
    // foot.
    for (const std::string file : {"insole/GaCo01_01.txt.gz", "insole/GaCo02_01.txt.gz"}) {
        const auto text = test::open_data(file);
        if (!text) {
            MESSAGE("the open insole data are not here: skipped");
            return;
        }
        PlateLayout layout;
        layout.plates = {{"left", {-0.1, 0}, {}}, {"right", {0.1, 0}, {}}};
        for (int i = 0; i < 8; ++i) {
            for (Plate& plate : layout.plates) plate.cells.push_back({0.01 * (i % 2), 0.03 * i});
        }
        LoadReducer reducer(layout);
        TraceBuilder builder(100);
        std::istringstream lines(*text);
        std::size_t index = 0;
        double worst_n = 0.0;
        for (double time_s = 0.0; lines >> time_s;) {
            std::vector<double> sensors(16);
            double left_n = 0.0;
            double right_n = 0.0;
            for (double& sensor : sensors) lines >> sensor;
            lines >> left_n >> right_n;
            const LoadSample sample = reducer.reduce(sensors);
            worst_n =
                std::max({worst_n, std::abs(sample.left_n - left_n), std::abs(sample.right_n - right_n)});
            builder.add(stamp_at(index++, 100), sample);
        }
        CHECK(index == 12119);
        CHECK(worst_n < 1e-9);
        CHECK(analyse_swings(std::move(builder).finish(), Hand::right, {}).empty());
    }
}

TEST_CASE("a step on a sensor grid: load and CoP are those of the device") {
    // Telfer & Li 2023, Sci Rep 13:16776 (MIT): 64 x 95 elements of 5 mm, kPa; reference by the device's own
    // totals.
    const auto text = test::open_data("sensel/mat_walk_5mm_100Hz.csv.gz");
    const auto expected = test::open_data("sensel/mat_walk_5mm_100Hz.reference.csv");
    if (!text || !expected) {
        MESSAGE("the open sensor-grid data are not here: skipped");
        return;
    }
    PlateLayout layout;
    layout.kind = FrameKind::grid;
    layout.grid = Grid{95, 64, 0.005, 0.005, {0.16, 0.2375}};
    std::map<int, std::vector<double>> frames;
    for (const test::TableRow& row : test::table_rows(*text)) {
        std::vector<double>& frame = frames[std::stoi(row.at("frame"))];
        frame.resize(95 * 64, 0.0);
        const std::size_t at = static_cast<std::size_t>(std::stoi(row.at("row")) - 1) * 64 +
                               static_cast<std::size_t>(std::stoi(row.at("col")) - 1);
        REQUIRE(at < frame.size());
        frame[at] += number(row, "pressure_kPa") * 0.025;
    }
    LoadReducer reducer(layout);
    int checked = 0;
    for (const test::TableRow& row : test::table_rows(*expected)) {
        const auto frame = frames.find(std::stoi(row.at("frame")));
        if (frame == frames.end()) continue;
        const LoadSample sample = reducer.reduce(frame->second);
        CHECK(std::abs(sample.total_n - number(row, "force_device_N")) < 0.006);
        if (sample.cop) {
            // Their y counts from row 1; here row 1 is at the toes.
            CHECK(std::abs(1e3 * sample.cop->x_m - number(row, "cop_x_mm")) < 1e-5);
            CHECK(std::abs(475.0 - 1e3 * sample.cop->y_m - number(row, "cop_y_mm")) < 1e-5);
        }
        ++checked;
    }
    CHECK(checked > 80);
}
