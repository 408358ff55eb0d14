// A golfer whose loads are known stands on plates of every type, in files of every byte order and storage;
// the import must give the loads back. From statics alone, nothing of the import is run backwards but the
// formats.

#include <doctest/doctest.h>

#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "acquisition/import/c3d_loads.h"
#include "tests/import/c3d_stand.h"

using namespace footing;
using namespace footing::test;

namespace {

constexpr std::size_t samples = 400;

struct Read {
    std::vector<double> values;
    PlateLayout layout;
    std::vector<std::string> remarks;
};

Read read_loads_of(const std::vector<std::byte>& bytes, const C3dImportOptions& options = {}) {
    const auto file = C3dFile::open(in_memory(bytes), "sample.c3d");
    REQUIRE_MESSAGE(file.ok(), sentence(file.problem()));
    const auto loads = C3dLoads::open(file.value(), options);
    REQUIRE_MESSAGE(loads.ok(), sentence(loads.problem()));
    auto values = loads.value().read(0, samples + 100);
    REQUIRE(values.ok());
    return {values.value(), loads.value().layout(), loads.value().remarks()};
}

/// Every sample of both feet against what the golfer did. `tolerance_n` covers the storage's own steps.
void check_feet(const Read& read, double tolerance_n, double half_distance_m = 0.25) {
    REQUIRE(read.values.size() == samples * 12);
    REQUIRE(read.layout.plates.size() == 2);
    CHECK(read.layout.plates[0].name == "left");
    CHECK(read.layout.plates[1].name == "right");
    CHECK(read.layout.plates[0].centre.x_m == doctest::Approx(-half_distance_m).epsilon(1e-6));
    CHECK(read.layout.plates[1].centre.x_m == doctest::Approx(half_distance_m).epsilon(1e-6));
    CHECK(std::abs(read.layout.plates[0].centre.y_m) < 1e-6);
    double worst_force = 0.0;
    double worst_cop = 0.0;
    double worst_twist = 0.0;
    for (std::size_t i = 0; i < samples; ++i) {
        for (int foot = 0; foot < 2; ++foot) {
            const double* got = &read.values[12 * i + 6 * static_cast<std::size_t>(foot)];
            const C3dStand::Foot felt = C3dStand::foot_at(i, foot);
            for (std::size_t k = 0; k < 3; ++k)
                worst_force = std::max(worst_force, std::abs(got[k] - felt.force_n[k]));
            worst_cop = std::max(worst_cop, std::abs(-got[4] / got[2] - felt.cop_x_m));
            worst_cop = std::max(worst_cop, std::abs(got[3] / got[2] - felt.cop_y_m));
            const double twist = got[5] - (felt.cop_x_m * felt.force_n[1] - felt.cop_y_m * felt.force_n[0]);
            worst_twist = std::max(worst_twist, std::abs(twist - felt.twist_n_m));
        }
    }
    CHECK(worst_force < tolerance_n);
    CHECK(worst_cop < tolerance_n * 0.005);
    CHECK(worst_twist < tolerance_n);
}

C3dSample stand_on(const C3dStand& stand, int left_type, int right_type, const C3dVector& left_x,
                   const C3dVector& right_x) {
    C3dSample file;
    stand.record(file, stand.plate(left_type, 0, left_x), 0, samples);
    stand.record(file, stand.plate(right_type, 1, right_x), 1, samples);
    return file;
}

}  // namespace

TEST_CASE("known loads come back from plates of every type, byte order and storage") {
    const C3dVector golfer_right{1, 0, 0};
    const C3dVector golfer_ahead{0, 1, 0};
    for (const int left_type : {2, 3, 4}) {
        for (const int right_type : {2, 3, 4}) {
            for (const C3dByteOrder order : {C3dByteOrder::intel, C3dByteOrder::dec, C3dByteOrder::mips}) {
                CAPTURE(left_type);
                CAPTURE(right_type);
                CAPTURE(static_cast<int>(order));
                C3dSample file = stand_on(C3dStand{}, left_type, right_type, golfer_right, golfer_ahead);
                file.order = order;
                check_feet(read_loads_of(file.bytes()), 2e-3);
                // Whole numbers: a step of 0.05 of each channel's unit (0.01 N mm would not reach).
                file.storage = C3dSample::Storage::words;
                file.general_scale = 0.5;
                file.scale.clear();
                file.offset.clear();
                for (const auto& channel : file.channels) {
                    double most = 1e-9;
                    for (const double value : channel) most = std::max(most, std::abs(value));
                    file.scale.push_back(most / 16000.0);
                    file.offset.push_back(-37.0);
                }
                check_feet(read_loads_of(file.bytes()), 0.2);
                file.storage = C3dSample::Storage::unsigned_words;
                file.offset.assign(file.channels.size(), 32768.0);
                check_feet(read_loads_of(file.bytes()), 0.2);
            }
        }
    }
}

TEST_CASE(
    "plates turned any way on the floor, and a laboratory whose y axis points up, give the same loads") {
    std::vector<C3dVector> ways{{1, 0, 0}, {0, 1, 0}, {-1, 0, 0}, {0, -1, 0}};
    C3dStand stand;
    SUBCASE("z up") {}
    SUBCASE("y up") {
        stand.right = {0, 0, 1};
        stand.ahead = {1, 0, 0};
        stand.up = {0, 1, 0};
    }
    SUBCASE("z up, the golfer looks along -y of the file") {
        stand.right = {-1, 0, 0};
        stand.ahead = {0, -1, 0};
    }
    C3dImportOptions options;
    options.plates = {{C3dPlateUse::Foot::left, 1}, {C3dPlateUse::Foot::right, 2}};
    for (const C3dVector& left : ways) {
        for (const C3dVector& right : ways) {
            check_feet(read_loads_of(stand_on(stand, 2, 3, left, right).bytes(), options), 2e-3);
        }
    }
}

TEST_CASE("forces of the feet on the plates are turned round, and a remark says so") {
    C3dStand stand;
    const auto told = [](const Read& read) {
        for (const std::string& remark : read.remarks) {
            if (remark.find("turned round") != std::string::npos) return true;
        }
        return false;
    };
    const Read reaction = read_loads_of(stand_on(stand, 2, 4, {1, 0, 0}, {1, 0, 0}).bytes());
    check_feet(reaction, 2e-3);
    CHECK_FALSE(told(reaction));
    stand.convention = C3dStand::Convention::action;
    const Read action = read_loads_of(stand_on(stand, 2, 4, {1, 0, 0}, {1, 0, 0}).bytes());
    check_feet(action, 2e-3);
    CHECK(told(action));
}

TEST_CASE("metres and millimetres, and moments in the channel's own unit") {
    C3dSample file;
    file.length_unit = "m";
    file.unit_m = 1.0;
    C3dStand stand;
    stand.record(file, stand.plate(2, 0, {1, 0, 0}), 0, samples);
    stand.record(file, stand.plate(2, 1, {1, 0, 0}), 1, samples);
    check_feet(read_loads_of(file.bytes()), 2e-3);

    // The same channels in N mm and so named: places in metres, moments not.
    for (std::size_t i = 0; i < file.channels.size(); ++i) {
        if (i % 6 < 3) {
            file.units.push_back("N");
            continue;
        }
        file.units.push_back("N.mm");
        for (double& value : file.channels[i]) value *= 1000.0;
    }
    check_feet(read_loads_of(file.bytes()), 2e-3);
}

TEST_CASE("left and right: by position, by name, by where the toes point") {
    C3dStand stand;  // the left foot's plate comes first and has the smaller x
    const C3dSample file = stand_on(stand, 2, 2, {1, 0, 0}, {1, 0, 0});
    const auto bytes = file.bytes();

    SUBCASE("by position, with a remark that says how to change it") {
        const Read read = read_loads_of(bytes);
        check_feet(read, 2e-3);
        REQUIRE(read.remarks.size() == 1);
        CHECK(read.remarks[0].find("--plates left=2,right=1") != std::string::npos);
    }
    SUBCASE("named the other way round, the golfer faced the other way") {
        C3dImportOptions options;
        options.plates = {{C3dPlateUse::Foot::left, 2}, {C3dPlateUse::Foot::right, 1}};
        const Read read = read_loads_of(bytes, options);
        CHECK(read.remarks.empty());
        const C3dStand::Foot on_plate_2 = C3dStand::foot_at(7, 1);
        const double* left = &read.values[12 * 7];
        CHECK(left[0] == doctest::Approx(-on_plate_2.force_n[0]).epsilon(1e-5));
        CHECK(left[1] == doctest::Approx(-on_plate_2.force_n[1]).epsilon(1e-5));
        CHECK(left[2] == doctest::Approx(on_plate_2.force_n[2]).epsilon(1e-5));
        CHECK(-left[4] / left[2] == doctest::Approx(-on_plate_2.cop_x_m).epsilon(1e-4));
    }
    SUBCASE("toes to -y: the same") {
        C3dImportOptions options;
        options.ahead = C3dAxis::minus_y;
        const Read read = read_loads_of(bytes, options);
        CHECK(read.values[12 * 7 + 2] == doctest::Approx(C3dStand::foot_at(7, 1).force_n[2]).epsilon(1e-5));
    }
    SUBCASE("toes to +y and crossed feet contradict each other") {
        C3dImportOptions options;
        options.ahead = C3dAxis::plus_y;
        options.plates = {{C3dPlateUse::Foot::left, 2}, {C3dPlateUse::Foot::right, 1}};
        const auto opened = C3dFile::open(in_memory(bytes), "sample.c3d");
        const auto loads = C3dLoads::open(opened.value(), options);
        REQUIRE_FALSE(loads.ok());
        CHECK(loads.problem().kind == ProblemKind::command_line);
    }
    SUBCASE("both feet on one plate") {
        C3dImportOptions options;
        options.plates = {{C3dPlateUse::Foot::whole, 2}};
        options.ahead = C3dAxis::plus_y;
        const Read read = read_loads_of(bytes, options);
        REQUIRE(read.layout.plates.size() == 1);
        CHECK(plate_sides(read.layout)[0] == PlateSide::whole);
        CHECK(read.layout.plates[0].centre == PointM{});
        CHECK(read.values[6 * 7 + 2] == doctest::Approx(C3dStand::foot_at(7, 1).force_n[2]).epsilon(1e-5));
    }
}

TEST_CASE("the words for plates and axes") {
    using Foot = C3dPlateUse::Foot;
    const auto lead = parse_plate_uses("lead=2,trail=1", Hand::left);
    REQUIRE(lead.ok());
    CHECK(lead.value() == std::vector<C3dPlateUse>{{Foot::right, 2}, {Foot::left, 1}});
    CHECK(parse_plate_uses("left=2,right=1", Hand::left).value() ==
          std::vector<C3dPlateUse>{{Foot::left, 2}, {Foot::right, 1}});
    for (const char* wrong : {"", "left", "left=", "left=0", "left=x", "left=1,left=2", "left=1,right=1",
                              "whole=1,left=2", "middle=1", "left=1;right=2", "left=-1"}) {
        CAPTURE(wrong);
        CHECK_FALSE(parse_plate_uses(wrong, Hand::right).ok());
    }
    CHECK(parse_c3d_axis("-z").value() == C3dAxis::minus_z);
    CHECK_FALSE(parse_c3d_axis("north").ok());
}

TEST_CASE("a baseline is taken off on request, and refused when somebody stood there") {
    C3dStand stand;
    C3dSample file = stand_on(stand, 2, 2, {1, 0, 0}, {1, 0, 0});
    for (std::size_t channel = 0; channel < 12; ++channel) {
        for (std::size_t i = 0; i < 20; ++i) file.channels[channel][i] = 0.0;
        const double drift = channel % 6 < 3 ? 12.0 : 900.0;  // N, N mm
        for (double& value : file.channels[channel]) value += drift;
    }
    file.zero = {1, 2};
    C3dImportOptions options;
    const Read raw = read_loads_of(file.bytes(), options);
    options.baseline = C3dImportOptions::Baseline::subtracted;
    const Read zeroed = read_loads_of(file.bytes(), options);
    CHECK(std::abs(zeroed.values[12 * 5 + 2]) < 1e-3);
    CHECK(std::abs(raw.values[12 * 5 + 2]) == doctest::Approx(12.0).epsilon(1e-5));
    CHECK(zeroed.values[12 * 100 + 2] == doctest::Approx(C3dStand::foot_at(100, 0).force_n[2]).epsilon(1e-5));

    const auto refused = [&](std::array<int, 2> zero) {
        file.zero = zero;
        const auto bytes = file.bytes();
        const auto opened = C3dFile::open(in_memory(bytes), "sample.c3d");
        const auto loads = C3dLoads::open(opened.value(), options);
        REQUIRE_FALSE(loads.ok());
        CHECK(loads.problem().kind == ProblemKind::bad_input);
        CHECK(sentence(loads.problem()).find("--zero-baseline") != std::string::npos);
    };
    refused({0, 0});
    refused({1, 10});
    refused({5, 4});
    refused({1, 1000});
}
