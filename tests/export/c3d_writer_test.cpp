#include "acquisition/export/c3d_writer.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstring>
#include <span>
#include <string>
#include <vector>

#include "acquisition/import/c3d_file.h"
#include "acquisition/import/c3d_provenance.h"

using namespace footing;

namespace {

/// Somebody of 700 N whose centre of pressure wanders over one plate.
C3dContent one_plate(std::size_t samples) {
    C3dContent content;
    content.rate_hz = 1000.0;
    content.program = "test";
    C3dPlateSeries plate{"1", 0.1, -0.2, 0.25, 0.3, {}};
    for (auto& component : plate.components) component.assign(samples, 0.0);
    for (std::size_t i = 0; i < samples; ++i) {
        const double x_m = 0.05 * std::sin(0.001 * static_cast<double>(i));
        plate.components[2][i] = 700.0;
        plate.components[3][i] = 700.0 * 0.02;
        plate.components[4][i] = -700.0 * x_m;
    }
    content.plates.push_back(plate);
    return content;
}

Result<C3dFile> opened(const std::string& bytes) {
    C3dBytes source;
    source.size = bytes.size();
    source.read_at = [&bytes](std::uint64_t from, std::span<std::byte> into) {
        const std::size_t count = from < bytes.size() ? std::min(into.size(), bytes.size() - from) : 0;
        std::memcpy(into.data(), bytes.data() + from, count);
        return count;
    };
    return C3dFile::open(std::move(source), "in memory");
}

}  // namespace

TEST_CASE(
    "a standing person presses a plate whose z points into the floor: the ground's force is negative there") {
    const Result<C3dBytesMade> made = make_c3d(one_plate(10));
    REQUIRE(made.ok());
    const Result<C3dFile> file = opened(made.value().bytes);
    REQUIRE(file.ok());
    const std::vector<std::size_t> channels{2, 3, 4};
    const auto values = file.value().read(0, 1, channels);
    REQUIRE(values.ok());
    CHECK(values.value()[0] == doctest::Approx(-700.0));
    CHECK(values.value()[1] == doctest::Approx(14000.0));  // N mm; x is the same axis in both
    const C3dParameters& parameters = file.value().parameters();
    // From the corners, as the standard defines a plate's axes: x × y must point down.
    const std::vector<double> corners = parameters.numbers("FORCE_PLATFORM", "CORNERS");
    REQUIRE(corners.size() == 12);
    const double x[2] = {corners[0] - corners[3], corners[1] - corners[4]};
    const double y[2] = {corners[0] - corners[9], corners[1] - corners[10]};
    CHECK(x[0] * y[1] - x[1] * y[0] == doctest::Approx(-500.0 * 600.0));
    CHECK(parameters.texts("MANUFACTURER", "SOFTWARE").front() == "test");
}

TEST_CASE(
    "a recording longer than 16 bits can count gets several samples a frame, and loses less than a frame") {
    const std::size_t samples = 100'001;
    const Result<C3dBytesMade> made = make_c3d(one_plate(samples));
    REQUIRE(made.ok());
    const Result<C3dFile> file = opened(made.value().bytes);
    REQUIRE(file.ok());
    CHECK(file.value().analog_rate_hz() == doctest::Approx(1000.0));
    CHECK(file.value().samples_per_point_frame() == 4);
    CHECK(file.value().sample_count() == 100'000);
    CHECK(made.value().left_out.samples == 1);
    CHECK(file.value().missing_point_frames() == 0);
    const std::vector<std::size_t> channels{4};
    const auto last = file.value().read(99'999, 1, channels);
    REQUIRE(last.ok());
    CHECK(last.value()[0] == doctest::Approx(700.0 * 50.0 * std::sin(99.999)).epsilon(1e-5));
}

TEST_CASE("events keep their minutes and seconds; those beyond 255 are told, not lost in silence") {
    C3dContent content = one_plate(400'000);
    for (int i = 0; i < 300; ++i) content.events.push_back({1.25 * i, i == 100 ? "impact" : "top"});
    const Result<C3dBytesMade> made = make_c3d(content);
    REQUIRE(made.ok());
    CHECK(made.value().left_out.events == 45);
    const Result<C3dFile> file = opened(made.value().bytes);
    REQUIRE(file.ok());
    const std::vector<C3dEvent> events = file.value().events();
    REQUIRE(events.size() == 255);
    CHECK(events[100].label == "impact");
    CHECK(events[100].time_s == doctest::Approx(125.0));
    CHECK(events[254].time_s == doctest::Approx(317.5));
}

TEST_CASE("what cannot be written is refused") {
    CHECK_FALSE(make_c3d(one_plate(0)).ok());
    CHECK_FALSE(make_c3d(C3dContent{}).ok());
    C3dContent uneven = one_plate(10);
    uneven.plates[0].components[1].pop_back();
    CHECK_FALSE(make_c3d(uneven).ok());
}

TEST_CASE("when a lesson began and how well it is known come back as they went, and nonsense does not") {
    const auto read_back = [](const C3dOrigin& origin) {
        C3dContent content = one_plate(10);
        content.origin = origin;
        const Result<C3dBytesMade> made = make_c3d(content);
        REQUIRE(made.ok());
        const Result<C3dFile> file = opened(made.value().bytes);
        REQUIRE(file.ok());
        return c3d_provenance(file.value().parameters());
    };
    C3dOrigin origin{"2026-05-14T08:20:44.123Z",
                     "Europe/Berlin",
                     "known masses on each cell",
                     "2026-01-10",
                     "2027-01-10",
                     0.004,
                     0.001,
                     false};
    const C3dProvenance known = read_back(origin);
    CHECK(known.start_utc_ns == 1778746844123000000);  // date -ud 2026-05-14T08:20:44Z +%s
    CHECK(known.zone == "Europe/Berlin");
    REQUIRE(known.calibration);
    CHECK(known.calibration->method == origin.calibration_method);
    CHECK(known.calibration->made == "2026-01-10");
    CHECK(known.calibration->valid_until == "2027-01-10");
    CHECK(known.calibration->relative_u == doctest::Approx(0.004));
    CHECK(known.calibration->common_relative_u == doctest::Approx(0.001));
    CHECK_FALSE(known.calibration->only_ratios);

    for (const char* start :
         {"9999-12-31T00:00:00.000Z", "1969-12-31T23:59:59.000Z", "2026-05-14T24:00:00.000Z",
          "2026-02-30T00:00:00.000Z", "2026-05-14 08:20:44.123Z", "x"}) {
        CAPTURE(start);
        origin.start_utc = start;
        CHECK_FALSE(read_back(origin).start_utc_ns);
    }
    for (const double u : {-0.1, 0.0, 1.0, 1e30, std::nan("")}) {
        CAPTURE(u);
        C3dOrigin wrong = origin;
        wrong.relative_u = u;
        CHECK_FALSE(read_back(wrong).calibration);
        CHECK(read_back(wrong).calibration_is_odd);
    }
    CHECK_FALSE(known.calibration_is_odd);
    CHECK_FALSE(read_back({}).calibration_is_odd);
    C3dOrigin wrong = origin;
    wrong.calibration_valid_until = "tomorrow";
    CHECK_FALSE(read_back(wrong).calibration);
    CHECK_FALSE(read_back({}).calibration);
    CHECK_FALSE(read_back({}).start_utc_ns);
}
