#include "acquisition/calibrate/calibration.h"

#include <doctest/doctest.h>

#include <cmath>

#include "acquisition/calibrate/force_converter.h"

using namespace footing;

namespace {

DeviceDescription two_cells(std::uint32_t serial) {
    DeviceDescription device;
    device.name = "plates";
    device.serial = serial;
    device.rate_hz = 1000;
    device.newtons_per_count = 0.002;
    device.layout = {FrameKind::cells, {{"left", {}, {{0, 0}, {0.1, 0}}}}, {}};
    return device;
}

Calibration made_with_masses() {
    Calibration calibration = nominal_calibration(two_cells(7), 1.0);
    calibration.method = "known masses";
    calibration.made = "2026-03-01";
    calibration.valid_until = "2027-03-01";
    calibration.newtons_per_count = {0.0021, 0.0019};
    calibration.zero_counts = {100.5, -20.25};
    return calibration;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    text.replace(text.find(what), what.size(), by);
    return text;
}

}  // namespace

TEST_CASE("a calibration record comes back from its file as it was") {
    const Calibration made = made_with_masses();
    const auto read = parse_calibration(calibration_json(made), "cal.json");
    REQUIRE(read.ok());
    CHECK(read.value().newtons_per_count == made.newtons_per_count);
    CHECK(read.value().zero_counts == made.zero_counts);
    CHECK(read.value().device_serial == 7);
    CHECK(read.value().valid_until == "2027-03-01");
}

TEST_CASE("a calibration record that was changed by hand is refused") {
    const std::string text = replaced(calibration_json(made_with_masses()), "0.0021", "0.0022");
    const auto read = parse_calibration(text, "cal.json");
    REQUIRE_FALSE(read.ok());
    CHECK(sentence(read.problem()).find("SHA-256") != std::string::npos);
}

TEST_CASE("what is no calibration record is refused with a reason") {
    for (const char* text : {"", "[]", "{}", "{\"format\": 3}", "\xff\xfe",
                             "{\"format\": \"footing calibration\", \"version\": 99}"}) {
        const auto read = parse_calibration(text, "cal.json");
        REQUIRE_FALSE(read.ok());
        CHECK(read.problem().kind == ProblemKind::bad_input);
        CHECK(read.problem().place == "cal.json");
    }
}

TEST_CASE("another device's calibration is refused (R17)") {
    CHECK(check_calibration(made_with_masses(), two_cells(7), "cal.json").ok());
    const auto foreign = check_calibration(made_with_masses(), two_cells(8), "cal.json");
    REQUIRE_FALSE(foreign.ok());
    CHECK(sentence(foreign.problem()).find("device 7") != std::string::npos);
    DeviceDescription larger = two_cells(7);
    larger.layout.plates[0].cells.push_back({0.2, 0});
    CHECK_FALSE(check_calibration(made_with_masses(), larger, "cal.json").ok());
}

TEST_CASE("an expired calibration says so") {
    CHECK(describe_calibration(made_with_masses(), "2026-12-01").find("valid until 2027-03-01") !=
          std::string::npos);
    CHECK(describe_calibration(made_with_masses(), "2027-03-02").find("EXPIRED") != std::string::npos);
}

TEST_CASE("a device that states no newtons per count gives ratios only") {
    DeviceDescription device = two_cells(7);
    device.newtons_per_count.reset();
    const Calibration calibration = nominal_calibration(device, 0.5);
    CHECK(calibration.only_ratios);
    CHECK(calibration.newtons_per_count == std::vector<double>{0.5, 0.5});
}

TEST_CASE("counts become newtons by gain and zero; a new zero counts at once") {
    ForceConverter converter(made_with_masses());
    const std::vector<std::int32_t> counts{1100, 980};
    auto newtons = converter.convert(std::span<const std::int32_t>(counts));
    CHECK(newtons[0] == 0.0021 * (1100 - 100.5));
    CHECK(newtons[1] == 0.0019 * (980 + 20.25));
    converter.set_zero(std::vector<double>{1100, 980});
    newtons = converter.convert(std::span<const std::int32_t>(counts));
    CHECK(newtons[0] == 0.0);
    CHECK(newtons[1] == 0.0);
}

TEST_CASE("a cell matrix mixes the cells' counts, from whatever zero is in force") {
    Calibration calibration = made_with_masses();
    calibration.zero_counts = {0, 0};
    calibration.cell_matrix = {0.002, 0.0001, -0.0002, 0.0018};
    REQUIRE(parse_calibration(calibration_json(calibration), "cal.json").ok());
    ForceConverter converter(calibration);
    const std::vector<std::int32_t> counts{1000, 2000};
    auto newtons = converter.convert(std::span<const std::int32_t>(counts));
    CHECK(newtons[0] == doctest::Approx(2.2));
    CHECK(newtons[1] == doctest::Approx(3.4));
    converter.set_zero(std::vector<double>{0, 1000});
    newtons = converter.convert(std::span<const std::int32_t>(counts));
    CHECK(newtons[0] == doctest::Approx(2.1));
    calibration.cell_matrix.pop_back();
    CHECK_FALSE(parse_calibration(calibration_json(calibration), "cal.json").ok());
}

TEST_CASE("a calibration's covariance gives the loads' covariance (GUM, 5.2.2)") {
    Calibration calibration = made_with_masses();
    calibration.newtons_per_count = {0.002, 0.002};
    calibration.gain_covariance = {4e-12, 1e-12, 1e-12, 9e-12};
    const LoadCovariance loads = load_covariance(calibration, {100000.0, 50000.0}, {0, 1});
    CHECK(loads.load_n[0] == doctest::Approx(200.0));
    CHECK(loads.covariance[0] == doctest::Approx(4e-12 * 1e10));
    CHECK(loads.covariance[1] == doctest::Approx(1e-12 * 5e9));
    CHECK(loads.covariance[3] == doctest::Approx(9e-12 * 2.5e9));
    // Without it: relative_u, of which the common part ties the plates together.
    calibration.gain_covariance.clear();
    calibration.relative_u = 0.005;
    calibration.common_relative_u = 0.003;
    CHECK(ratio_relative_u(calibration) == doctest::Approx(0.004));
    const LoadCovariance plain = load_covariance(calibration, {100000.0, 50000.0}, {0, 1});
    CHECK(std::sqrt(plain.covariance[0]) == doctest::Approx(1.0));
    CHECK(plain.covariance[1] == doctest::Approx(0.003 * 0.003 * 200.0 * 100.0));
}

TEST_CASE("a hostile record is refused, not believed (R22)") {
    std::string deep = "{\"format\": ";
    for (int i = 0; i < 100'000; ++i) deep += "[";
    CHECK_FALSE(parse_calibration(deep, "cal.json").ok());
    Calibration calibration = made_with_masses();
    calibration.gain_covariance = {-1, 0, 0, 1};
    CHECK_FALSE(parse_calibration(calibration_json(calibration), "cal.json").ok());
    calibration.gain_covariance.clear();
    calibration.method = "\xff\xfe";
    CHECK(parse_calibration(calibration_json(calibration), "cal.json").ok());
    calibration.relative_u = 1.5;
    CHECK_FALSE(parse_calibration(calibration_json(calibration), "cal.json").ok());
}
