// Areas that may be feet in one frame of a mat: made-up feet of known load, place and direction; connected
// areas against scipy.ndimage.label (a live oracle, where /usr/bin/python3 has scipy); recorded feet from the
// open data beside the repository.

#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <limits>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "analysis/pressure/foot_shape.h"
#include "analysis/pressure/mat_areas.h"
#include "tests/pressure/made_foot.h"
#include "tests/support/child_process.h"
#include "tests/support/open_data.h"

using namespace footing;
using namespace footing::test;

namespace {

std::vector<MatArea> areas_of(const Grid& grid, const std::vector<double>& force_n) {
    return find_areas(grid, force_n, {}).areas;
}

PointM cop_of(const MatArea& area) {
    PointM cop;
    for (const MatElement& one : area) {
        cop.x_m += one.load_n * one.at.x_m / load_of(area);
        cop.y_m += one.load_n * one.at.y_m / load_of(area);
    }
    return cop;
}

double load_of_all(const MatAreas& found) {
    double load_n = found.other_n;
    for (const MatArea& area : found.areas) load_n += load_of(area);
    return load_n;
}

}  // namespace

TEST_CASE("feet of every direction and width of stance are two areas with their loads and lines") {
    std::mt19937_64 chance(3);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const Grid grid = mat();
    for (int round = 0; round < 300; ++round) {
        const MadeFoot left{{-0.10 - 0.12 * unit(chance), -0.04 + 0.08 * unit(chance)},
                            (-35.0 + 40.0 * unit(chance)) * degree,
                            30.0 + 400.0 * unit(chance),
                            30.0 + 400.0 * unit(chance),
                            round % 3 == 0 ? 40.0 : 0.0};
        const MadeFoot right{{0.10 + 0.12 * unit(chance), -0.04 + 0.08 * unit(chance)},
                             (-5.0 + 40.0 * unit(chance)) * degree,
                             30.0 + 400.0 * unit(chance),
                             30.0 + 400.0 * unit(chance),
                             round % 3 == 1 ? 40.0 : 0.0};
        CAPTURE(round);
        std::vector<MatArea> areas = areas_of(grid, stance({left, right}));
        REQUIRE(areas.size() == 2);
        CHECK(load_of(areas[0]) >= load_of(areas[1]));
        if (centre_of(areas[0]).x_m > centre_of(areas[1]).x_m) std::swap(areas[0], areas[1]);
        CHECK(load_of(areas[0]) == doctest::Approx(left.heel_n + left.toe_n + left.arch_n));
        CHECK(load_of(areas[1]) == doctest::Approx(right.heel_n + right.toe_n + right.arch_n));
        const auto left_out_rad = toe_out_rad(foot_shape(areas[0], grid), FootSide::left);
        const auto right_out_rad = toe_out_rad(foot_shape(areas[1], grid), FootSide::right);
        REQUIRE(left_out_rad);
        REQUIRE(right_out_rad);
        CHECK(std::abs(*left_out_rad + left.turn_rad) < 3.0 * degree);
        CHECK(std::abs(*right_out_rad - right.turn_rad) < 3.0 * degree);
    }
}

TEST_CASE("the CoP of a foot of two pads lies on the line between their middles, parted by their loads") {
    const std::vector<MatArea> areas = areas_of(mat(), stance({left_foot}));
    REQUIRE(areas.size() == 1);
    const double ahead = 0.085 * (180.0 - 240.0) / 420.0;
    CHECK(std::abs(cop_of(areas[0]).x_m - (-0.2 + ahead * std::sin(-15.0 * degree))) < 0.001);
    CHECK(std::abs(cop_of(areas[0]).y_m - (0.01 + ahead * std::cos(15.0 * degree))) < 0.001);
}

TEST_CASE("load on the outer edge is told by sign on both feet") {
    std::vector<double> force_n = stance({left_foot, right_foot});
    const Grid grid = mat();
    for (std::size_t i = 0; i < force_n.size(); ++i) {
        const PointM at = element_position(grid, i / grid.columns, i % grid.columns);
        const bool outer = at.x_m < -0.2 - 0.27 * (at.y_m - 0.01) ||
                           (at.x_m > 0.0 && at.x_m > 0.22 + 0.14 * (at.y_m + 0.02));
        if (outer) force_n[i] *= 3.0;
    }
    const std::vector<MatArea> areas = areas_of(grid, force_n);
    REQUIRE(areas.size() == 2);
    for (const MatArea& area : areas) {
        const FootSide side = centre_of(area).x_m < 0.0 ? FootSide::left : FootSide::right;
        const FootLine line(foot_shape(area, grid), side, grid);
        double outside_n = 0.0;
        for (const MatElement& one : area) outside_n += one.load_n * line.outside_part(one.at);
        CHECK(std::abs(outside_n / load_of(area) - 0.75) < 0.08);
    }
}

TEST_CASE("a third thing on the mat is an area of its own") {
    std::vector<double> force_n = stance({left_foot, right_foot});
    const Grid grid = mat();
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 34; column < 37; ++column)
            force_n[row * grid.columns + column] = 5.0;  // a bag
    }
    const std::vector<MatArea> areas = areas_of(grid, force_n);
    REQUIRE(areas.size() == 3);
    CHECK(load_of(areas[0]) == doctest::Approx(420.0));
    CHECK(load_of(areas[1]) == doctest::Approx(380.0));
    CHECK(load_of(areas[2]) == doctest::Approx(45.0));
}

TEST_CASE("feet that touch are parted where the load is least") {
    const MadeFoot left{{-0.045, 0.0}, 0.0, 200.0, 200.0, 0.0};
    const MadeFoot right{{0.045, 0.0}, 0.0, 150.0, 250.0, 0.0};
    std::vector<double> force_n = stance({left, right});
    const Grid grid = mat();
    for (std::size_t row = 12; row < 36; ++row) {
        for (std::size_t column = 28; column < 44; ++column) force_n[row * grid.columns + column] += 0.01;
    }
    const std::vector<MatArea> areas = areas_of(grid, force_n);
    REQUIRE(areas.size() == 2);
    CHECK(load_of(areas[0]) == doctest::Approx(400.0).epsilon(0.02));
    CHECK(load_of(areas[1]) == doctest::Approx(400.0).epsilon(0.02));
}

TEST_CASE("a forefoot alone has a load and no line") {
    const std::vector<MatArea> areas = areas_of(mat(), stance({{{-0.2, 0.0}, 0.0, 0.0, 300.0, 0.0}}));
    REQUIRE(areas.size() == 1);
    CHECK(load_of(areas[0]) == doctest::Approx(300.0));
    CHECK_FALSE(foot_shape(areas[0], mat()).turn_rad);
}

TEST_CASE("dead elements are filled in") {
    const Grid grid = mat();
    const std::vector<double> whole = stance({left_foot});
    FeetOptions options;
    options.dead.assign(whole.size(), 0);
    std::vector<double> hurt = whole;
    std::size_t killed = 0;
    for (std::size_t i = 5; i < whole.size(); i += 23) {
        options.dead[i] = 1;
        killed += whole[i] > 0.0 ? 1 : 0;
        hurt[i] = 500.0;  // what a dead element says counts for nothing
    }
    REQUIRE(killed > 2);
    fill_dead(grid, options, hurt);
    const std::vector<MatArea> areas = find_areas(grid, hurt, options).areas;
    REQUIRE(areas.size() == 1);
    CHECK(load_of(areas[0]) == doctest::Approx(420.0).epsilon(0.03));
    CHECK(std::abs(cop_of(areas[0]).y_m - cop_of(areas_of(grid, whole)[0]).y_m) < 0.002);
}

TEST_CASE("an empty mat has no areas, and of a mat full of specks no load is forgotten") {
    CHECK(areas_of(mat(), stance({})).empty());
    std::vector<double> specks(std::size_t{48} * 72, 0.0);
    for (std::size_t row = 0; row < 48; row += 2) {
        for (std::size_t column = 0; column < 72; column += 2) specks[row * 72 + column] = 1.0;
    }
    const MatAreas found = find_areas(mat(), specks, {});
    CHECK(found.other_n > 0.0);
    CHECK(load_of_all(found) == doctest::Approx(total(specks)));
}

TEST_CASE("connected areas: the same as scipy.ndimage.label with 8 neighbours") {
    const ScratchFolder scratch;
    write_file(scratch / "label.py",
               "import sys\n"
               "try:\n"
               "    import numpy as np\n"
               "    from scipy import ndimage\n"
               "except ImportError:\n"
               "    sys.exit(77)\n"
               "for line in open(sys.argv[1]):\n"
               "    rows, columns, bits = line.split()\n"
               "    grid = np.array([int(b) for b in bits]).reshape(int(rows), int(columns))\n"
               "    labels, _ = ndimage.label(grid, structure=np.ones((3, 3)))\n"
               "    print(*labels.ravel())\n");
    std::mt19937_64 chance(11);
    std::string input;
    std::vector<std::vector<std::uint8_t>> grids;
    std::vector<std::pair<std::size_t, std::size_t>> sizes;
    for (int round = 0; round < 200; ++round) {
        const std::size_t rows = 1 + chance() % 40;
        const std::size_t columns = 1 + chance() % 40;
        const std::uint64_t density = 5 + chance() % 60;
        std::vector<std::uint8_t> grid(rows * columns);
        std::string bits;
        for (auto& one : grid) {
            one = chance() % 100 < density ? 1 : 0;
            bits += one != 0 ? '1' : '0';
        }
        input += std::to_string(rows) + " " + std::to_string(columns) + " " + bits + "\n";
        grids.push_back(grid);
        sizes.emplace_back(rows, columns);
    }
    write_file(scratch / "grids.txt", input);
    const ProgramOutput oracle =
        run_program({"/usr/bin/python3", scratch / "label.py", scratch / "grids.txt"});
    if (oracle.exit_code != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no scipy");
        return;
    }
    std::istringstream lines(oracle.out);
    std::string line;
    std::size_t at = 0;
    for (; std::getline(lines, line); ++at) {
        std::istringstream words(line);
        std::vector<std::uint32_t> theirs;
        for (std::uint32_t label = 0; words >> label;) theirs.push_back(label);
        const auto ours = label_areas(grids[at], sizes[at].first, sizes[at].second);
        // Areas may be numbered otherwise: they must be the same areas.
        REQUIRE(theirs.size() == ours.size());
        std::map<std::uint32_t, std::uint32_t> name;
        std::map<std::uint32_t, std::uint32_t> back;
        bool same = true;
        for (std::size_t i = 0; i < ours.size(); ++i) {
            same = same && name.emplace(ours[i], theirs[i]).first->second == theirs[i];
            same = same && back.emplace(theirs[i], ours[i]).first->second == ours[i];
        }
        CHECK(same);
        CHECK(name.count(0) + back.count(0) != 1);
    }
    CHECK(at == grids.size());
}

namespace {

/// Frames of a sparse table: frame number -> rows.
std::map<int, std::vector<TableRow>> by_frame(const std::string& text) {
    std::map<int, std::vector<TableRow>> frames;
    for (const TableRow& row : table_rows(text)) frames[std::stoi(row.at("frame"))].push_back(row);
    return frames;
}

}  // namespace

TEST_CASE("a barefoot step over a recorded mat: one foot, the device's load and the reference CoP") {
    const auto data = open_data("sensel/mat_walk_5mm_100Hz.csv.gz");
    const auto reference = open_data("sensel/mat_walk_5mm_100Hz.reference.csv");
    if (!data || !reference) {
        MESSAGE("skipped: no open data beside the repository");
        return;
    }
    // Rows 1..95, columns 1..64 of 5 mm; the reference has x = (column - 0.5) * 5, y = (row - 0.5) * 5 in mm.
    const Grid grid{95, 64, 0.005, 0.005, {0.16, -0.2375}};
    const auto frames = by_frame(*data);
    std::size_t whole = 0;
    for (const TableRow& row : table_rows(*reference)) {
        const int number = std::stoi(row.at("frame"));
        const double load_n = std::stod(row.at("force_device_N"));
        if (load_n < 50.0 || frames.count(number) == 0) continue;
        std::vector<double> force_n(std::size_t{95} * 64, 0.0);
        for (const TableRow& one : frames.at(number)) {
            const auto r = static_cast<std::size_t>(std::stoi(one.at("row")) - 1);
            const auto c = static_cast<std::size_t>(std::stoi(one.at("col")) - 1);
            force_n[r * 64 + c] = std::stod(one.at("pressure_kPa")) * 0.025;
        }
        const MatAreas found = find_areas(grid, force_n, {});
        CAPTURE(number);
        REQUIRE_FALSE(found.areas.empty());
        CHECK(std::abs(load_of_all(found) - load_n) < 0.006);
        if (found.areas.size() > 1 || found.other_n > 0.0) continue;
        CHECK(std::abs(cop_of(found.areas[0]).x_m * 1e3 - std::stod(row.at("cop_x_mm"))) < 0.01);
        CHECK(std::abs(-cop_of(found.areas[0]).y_m * 1e3 - std::stod(row.at("cop_y_mm"))) < 0.02);
        ++whole;
    }
    CHECK(whole > 50);
}

TEST_CASE("two recorded in-shoe sensors side by side: each foot's own load") {
    const auto data = open_data("sensel/inshoe_pair_walk_8.6mm.csv.gz");
    if (!data) {
        MESSAGE("skipped: no open data beside the repository");
        return;
    }
    const std::size_t gap = 12;
    const std::size_t columns = 11 + gap + 11;
    const Grid grid{31, static_cast<std::uint32_t>(columns), 0.0086, 0.0086, {}};
    std::size_t both = 0;
    for (const auto& [number, rows] : by_frame(*data)) {
        CAPTURE(number);
        std::vector<double> force_n(31 * columns, 0.0);
        std::map<std::string, double> sum{{"L", 0.0}, {"R", 0.0}};
        for (const TableRow& one : rows) {
            const auto r = static_cast<std::size_t>(std::stoi(one.at("row")) - 1);
            const auto c = static_cast<std::size_t>(std::stoi(one.at("col")) - 1);
            const double load_n = std::stod(one.at("pressure_mmHg")) * 133.322 * 0.0086 * 0.0086;
            force_n[r * columns + c + (one.at("side") == "R" ? 11 + gap : 0)] = load_n;
            sum[one.at("side")] += load_n;
        }
        std::map<std::string, double> seen{{"L", 0.0}, {"R", 0.0}};
        std::size_t feet = 0;
        for (const MatArea& area : areas_of(grid, force_n)) {
            if (load_of(area) < 20.0) continue;
            ++feet;
            seen[centre_of(area).x_m < 0.0 ? "L" : "R"] += load_of(area);
        }
        CHECK(feet == (sum["L"] >= 20.0 ? 1U : 0U) + (sum["R"] >= 20.0 ? 1U : 0U));
        for (const char* side : {"L", "R"}) {
            if (sum[side] >= 20.0) CHECK(seen[side] == doctest::Approx(sum[side]));
        }
        both += feet == 2 ? 1 : 0;
    }
    CHECK(both > 5);
}
