#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "acquisition/join/joined_device.h"

using namespace footing;

namespace {

DeviceDescription plate(const std::string& name, double centre_x_m, std::uint32_t serial) {
    DeviceDescription device;
    device.name = name + " plate";
    device.serial = serial;
    device.rate_hz = 1000.0;
    device.newtons_per_count = 0.01;
    device.full_scale_counts = 100000.0 + serial;
    device.layout.plates = {{name, {centre_x_m, 0.0}, {{-0.1, 0.2}, {0.1, 0.2}, {-0.1, -0.2}, {0.1, -0.2}}}};
    return device;
}

std::string refusal(const std::vector<DeviceDescription>& devices) {
    const auto joined = join_devices(devices);
    REQUIRE(!joined.ok());
    CHECK(joined.problem().kind == ProblemKind::bad_input);
    CHECK(!joined.problem().remedy.empty());
    return sentence(joined.problem());
}

/// A record with relative standard uncertainty `u`.
Calibration record(const DeviceDescription& device, const std::string& method, double gain, double u) {
    Calibration calibration = nominal_calibration(device, 1.0);
    calibration.method = method;
    calibration.newtons_per_count.assign(4, gain);
    calibration.relative_u = u;
    return calibration;
}

}  // namespace

TEST_CASE("two single plates make one device with both, told by the first one's clock") {
    const std::vector<DeviceDescription> devices{plate("left", -0.2, 7), plate("right", 0.2, 8)};
    const auto joined = join_devices(devices);
    REQUIRE(joined.ok());
    CHECK(joined.value().serial == 7);
    CHECK(joined.value().name == "left plate with right plate");
    CHECK(values_per_frame(joined.value().layout) == 8);
    CHECK(plate_sides(joined.value().layout) == std::vector{PlateSide::left, PlateSide::right});
    CHECK(joined.value().newtons_per_count == 0.01);
    CHECK(joined.value().full_scale_counts == 100007.0);
}

TEST_CASE("devices that cannot be one are refused, saying why") {
    const DeviceDescription left = plate("left", -0.2, 7);
    DeviceDescription mat = plate("mat", 0.2, 8);
    mat.layout = {FrameKind::grid, {}, Grid{4, 4, 0.01, 0.01, {}}};
    CHECK(refusal({left, mat}).find("is a mat") != std::string::npos);
    DeviceDescription components = plate("right", 0.2, 8);
    components.layout.kind = FrameKind::components;
    CHECK(refusal({left, components}).find("one kind") != std::string::npos);
    CHECK(refusal({left, plate("right", 0.2, 7)}).find("one serial number") != std::string::npos);
    CHECK(refusal({left, plate("right", -0.2, 8)}).find("another plate stands") != std::string::npos);
}

TEST_CASE("joined calibrations are worth what the least of them is, and share nothing") {
    const std::vector<DeviceDescription> devices{plate("left", -0.2, 7), plate("right", 0.2, 8)};
    std::vector<Calibration> records{record(devices[0], "known masses on each cell", 0.011, 0.001),
                                     record(devices[1], "known masses on each cell", 0.009, 0.002)};
    records[0].valid_until = "2027-03-01";
    records[1].valid_until = "2026-12-01";
    records[0].common_relative_u = 0.0009;
    records[1].gain_covariance.assign(16, 1e-12);
    const Calibration joined = join_calibrations(records, devices);
    CHECK(joined.method == "known masses on each cell");
    CHECK(joined.newtons_per_count ==
          std::vector<double>{0.011, 0.011, 0.011, 0.011, 0.009, 0.009, 0.009, 0.009});
    CHECK(joined.relative_u == 0.002);
    CHECK(ratio_relative_u(joined) == doctest::Approx(0.002));
    CHECK(joined.valid_until == "2026-12-01");
    REQUIRE(joined.gain_covariance.size() == 64);
    CHECK(joined.gain_covariance[0] == doctest::Approx(0.001 * 0.001 * 0.011 * 0.011));
    CHECK(joined.gain_covariance[4 * 8 + 5] == 1e-12);
    CHECK(joined.gain_covariance[4] == 0.0);
    // It can be written into a recording and read back.
    const auto read = parse_calibration(calibration_json(joined), "test");
    REQUIRE_MESSAGE(read.ok(), (read.ok() ? "" : sentence(read.problem())));
    CHECK(read.value().gain_covariance == joined.gain_covariance);

    records[1] = nominal_calibration(devices[1], 1.0);
    const Calibration weak = join_calibrations(records, devices);
    CHECK(calibration_state(weak, "2026-10-01") == CalibrationState::nominal);
    CHECK(weak.relative_u == 0.01);
    const auto weak_read = parse_calibration(calibration_json(weak), "test");
    CHECK_MESSAGE(weak_read.ok(), (weak_read.ok() ? "" : sentence(weak_read.problem())));
}

TEST_CASE("independent residuals add as squares") {
    CHECK(joined_residual(std::vector{3.0, 4.0}) == doctest::Approx(5.0));
    CHECK(joined_residual({}) == 0.0);
}
