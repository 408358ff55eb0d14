#include "viewer/calibration/calibration_shelf.h"

#include <doctest/doctest.h>

#include <fstream>

#include "acquisition/record/safe_file.h"
#include "tests/calibration/simulated_plates.h"
#include "tests/support/child_process.h"

using namespace footing;

namespace {

void keep(const CalibrationShelf& shelf, const DeviceDescription& device, const std::string& made,
          double gain) {
    Calibration record = nominal_calibration(device, 1.0);
    record.method = "known masses on each cell";
    record.made = made;
    for (double& one : record.newtons_per_count) one = gain;
    const auto file = shelf.new_file(device.serial, made);
    REQUIRE(file.ok());
    REQUIRE(write_new_file(file.value(), calibration_json(record)).ok());
}

double gain_of(const std::string& json) {
    const auto record = parse_calibration(json, "test");
    REQUIRE(record.ok());
    return record.value().newtons_per_count.front();
}

}  // namespace

TEST_CASE("a lesson finds the newest calibration of its own plates, the later one of a day") {
    const test::ScratchFolder scratch;
    const CalibrationShelf shelf = shelf_beside(std::filesystem::path(scratch.path()) / "lessons.book");
    DeviceDescription device;
    device.serial = 100001;
    device.layout.kind = FrameKind::cells;
    device.layout.plates = {{"left", {}, {{0.1, 0.1}, {-0.1, 0.1}, {0.1, -0.1}, {-0.1, -0.1}}}};
    CHECK(shelf.newest(device).empty());  // no folder yet
    keep(shelf, device, "2026-04-30", 0.25);
    CHECK(gain_of(shelf.newest(device)) == doctest::Approx(0.25));
    keep(shelf, device, "2026-05-14", 0.26);
    keep(shelf, device, "2026-05-14", 0.27);
    for (int i = 0; i < 9; ++i) keep(shelf, device, "2026-05-14", 0.28 + 0.01 * i);
    CHECK(gain_of(shelf.newest(device)) == doctest::Approx(0.36));  // the twelfth, not the ninth
    keep(shelf, device, "2026-01-01", 0.5);
    CHECK(gain_of(shelf.newest(device)) == doctest::Approx(0.36));
    DeviceDescription other = device;
    other.serial = 100002;
    CHECK(shelf.newest(other).empty());
    other.serial = 10000;  // the beginning of the number is not the number
    CHECK(shelf.newest(other).empty());
    std::ofstream(std::filesystem::path(scratch.path()) / "calibrations" / "100001_2027-01-01.json")
        << "no record";
    CHECK(gain_of(shelf.newest(device)) == doctest::Approx(0.36));
}
