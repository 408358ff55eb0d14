#include "acquisition/record/safe_file.h"
#include "viewer/calibration/calendar.h"
#include "viewer/calibration/calibration_guide.h"

#include <doctest/doctest.h>

#include <cmath>

#include "acquisition/calibrate/force_converter.h"
#include "tests/calibration/simulated_plates.h"
#include "tests/support/child_process.h"
#include "viewer/calibration/calibration_words.h"
#include "viewer/calibration/line_log.h"
#include "viewer/calibration/make_calibration.h"
#include "viewer/calibration/readings_file.h"

using namespace footing;
using namespace footing::test;

namespace {

/// Does what the guide says, a little later than it says it.
void obey(CalibrationGuide& guide, SimulatedPlates& plates, const std::vector<CalibrationStep>& steps) {
    std::size_t seen = steps.size();
    for (int frame = 0; frame < 2'000'000 && !guide.finished(); ++frame) {
        if (guide.step() != seen) {
            seen = guide.step();
            for (int wait = 0; wait < 60; ++wait) guide.take(plates.next());
            const CalibrationStep& step = steps[guide.step()];
            plates.clear();
            if (step.kind == CalibrationStep::Kind::load || step.kind == CalibrationStep::Kind::hold) {
                if (step.cell)
                    plates.put_on_cell(step.plate, *step.cell, step.mass_kg * local_g_m_s2);
                else
                    plates.put(step.plate, step.mass_kg * local_g_m_s2,
                               step.point.value_or(PointM{0.02, 0.03}));
            }
        }
        guide.take(plates.next());
    }
}

struct Guided {
    MadeCalibration made;
    std::vector<CalibrationReading> readings;
};

Guided guided(SimulatedPlates& plates, CalibrationPlanOptions options) {
    if (options.masses_kg.empty()) options.masses_kg = {10, 20, 30};
    const auto steps = plan_calibration(plates.description(), options);
    REQUIRE(steps.ok());
    CalibrationGuide guide(plates.description(), steps.value(), local_g_m_s2);
    obey(guide, plates, steps.value());
    REQUIRE_MESSAGE(guide.finished(), guide.instruction() << " " << guide.remark());
    const auto made = make_calibration(plates.description(), guide.readings(),
                                       weighing_at({}, {}, local_g_m_s2, 0.1), "2026-11-25", 12);
    REQUIRE_MESSAGE(made.ok(), sentence(made.problem()));
    return {made.value(), guide.readings()};
}

double largest_gain_error(const Calibration& record, const SimulatedPlates& plates) {
    double largest = 0.0;
    for (std::size_t i = 0; i < 8; ++i)
        largest = std::max(largest, std::abs(record.newtons_per_count[i] / plates.gains[i] - 1.0));
    return largest;
}

}  // namespace

TEST_CASE("the guide leads through masses on each cell without a key pressed, and the gains come out") {
    SimulatedPlates plates(11);
    CalibrationPlanOptions options;
    options.creep_s = 60.0;
    options.repeats = 2;
    const Guided all = guided(plates, options);
    const Calibration& record = all.made.record;
    CHECK(record.method == "known masses on each cell");
    CHECK(largest_gain_error(record, plates) < 0.0005);
    CHECK(record.errors.size() == 8);
    CHECK(record.errors[0].where == "the left plate, cell 1");
    CHECK(record.errors[0].creep_s.value() == doctest::Approx(60.0).epsilon(0.05));
    CHECK(record.errors[0].repeatability_n.has_value());
    CHECK(record.errors[0].full_load_n == doctest::Approx(294.3));
    CHECK(record.valid_until == "2027-11-25");
    CHECK(record.relative_u < 0.002);
    CHECK(record.common_relative_u == doctest::Approx(0.001 / std::sqrt(3.0)));
    CHECK(ratio_relative_u(record) < record.relative_u);
    int covered = 0;
    for (std::size_t i = 0; i < 8; ++i) {
        if (std::abs(record.newtons_per_count[i] - plates.gains[i]) <=
            2.0 * std::sqrt(record.gain_covariance[i * 9]))
            ++covered;
    }
    CHECK(covered >= 7);

    const auto again = parse_calibration(calibration_json(record), "cal.json");
    REQUIRE_MESSAGE(again.ok(), sentence(again.problem()));
    CHECK(again.value().readings == record.readings);
    CHECK(again.value().errors == record.errors);
    CHECK(again.value().gain_covariance == record.gain_covariance);
    const std::string words = calibration_words(record, plates.description(), all.made.remarks);
    CHECK(words.find("hysteresis") != std::string::npos);
    CHECK(words.find("the right plate, cell 4") != std::string::npos);
}

TEST_CASE("masses at marked points give a cell matrix that takes cross-talk out, drift or not") {
    SimulatedPlates plates(12);
    plates.cross_talk = 0.03;
    plates.drift_n_s = 0.002;
    CalibrationPlanOptions options;
    options.method = CalibrationMethod::plate_points;
    for (std::size_t plate = 0; plate < 2; ++plate) {
        for (const double x : {-0.15, 0.0, 0.15}) {
            for (const double y : {-0.2, 0.0, 0.2}) options.points.push_back({plate, {x, y}});
        }
    }
    const Guided all = guided(plates, options);
    const Calibration& record = all.made.record;
    REQUIRE(record.cell_matrix.size() == 64);
    CHECK(record.method == "known masses at marked points");

    ForceConverter converter(record);
    plates.drift_n_s = 0.0;
    plates.noise_n = 0.0;
    plates.clear();
    std::vector<double> zero;
    const FrameView empty = plates.next();
    for (const auto counts : std::get<std::span<const std::int32_t>>(empty.values)) zero.push_back(counts);
    converter.set_zero(zero);
    plates.put(0, 500.0, {0.1, -0.12});
    const FrameView loaded = plates.next();
    const auto newtons = converter.convert(loaded.values);
    double left_n = 0.0;
    double x_n_m = 0.0;
    double right_n = 0.0;
    const auto device = plates.description();
    for (std::size_t i = 0; i < 4; ++i) {
        left_n += newtons[i];
        x_n_m += newtons[i] * device.layout.plates[0].cells[i].x_m;
        right_n += newtons[4 + i];
    }
    CHECK(left_n == doctest::Approx(500.0).epsilon(0.002));
    CHECK(x_n_m / left_n == doctest::Approx(0.1).epsilon(0.01));
    CHECK(std::abs(right_n) < 0.2);

    std::vector<double> deflection;
    for (std::size_t i = 0; i < 8; ++i)
        deflection.push_back(std::get<std::span<const std::int32_t>>(loaded.values)[i] - zero[i]);
    const LoadCovariance loads = load_covariance(record, deflection, plate_of_value(device.layout));
    CHECK(loads.load_n[0] == doctest::Approx(left_n).epsilon(1e-9));
    CHECK(std::abs(loads.load_n[0] - 500.0) < 3.0 * std::sqrt(loads.covariance[0]));
}

TEST_CASE("a weight on each plate gives one factor a plate") {
    SimulatedPlates plates(13);
    for (std::size_t i = 0; i < 8; ++i) plates.gains[i] = SimulatedPlates::nominal * (i < 4 ? 1.03 : 0.98);
    CalibrationPlanOptions options;
    options.method = CalibrationMethod::plate_total;
    options.masses_kg = {75.0};
    options.repeats = 3;
    const Guided all = guided(plates, options);
    CHECK(all.made.record.method == "a known weight on each plate");
    CHECK(all.made.record.newtons_per_count[0] / SimulatedPlates::nominal ==
          doctest::Approx(1.03).epsilon(5e-4));
    CHECK(all.made.record.newtons_per_count[7] / SimulatedPlates::nominal ==
          doctest::Approx(0.98).epsilon(5e-4));
}

TEST_CASE("a steady load is not taken for empty plates while no zero is known, unless the coach says so") {
    SimulatedPlates plates(15);
    CalibrationPlanOptions options;
    options.masses_kg = {10, 20};
    const auto steps = plan_calibration(plates.description(), options);
    REQUIRE(steps.ok());
    const auto run = [&](CalibrationGuide& guide, double seconds) {
        for (int i = 0; i < 100 * seconds; ++i) guide.take(plates.next());
    };
    plates.put(0, 60 * local_g_m_s2, {0.0, 0.0});  // a bag of stones was left there
    CalibrationGuide guide(plates.description(), steps.value(), local_g_m_s2);
    run(guide, 6);
    CHECK(guide.step() == 0);
    CHECK(guide.remark().find("take everything off") != std::string::npos);
    CHECK(guide.remark().find("press Enter") != std::string::npos);
    plates.clear();
    run(guide, 6);
    CHECK(guide.step() == 1);
    CHECK(guide.readings().size() == 1);

    plates.put(0, 60 * local_g_m_s2, {0.0, 0.0});  // a plate whose cells are off by as much
    CalibrationGuide sure(plates.description(), steps.value(), local_g_m_s2);
    run(sure, 6);
    REQUIRE(sure.step() == 0);
    sure.accept();
    run(sure, 1);
    CHECK(sure.step() == 1);
}

TEST_CASE("the guide does not take a shaking, a wrong or a misplaced load for the one it asked for") {
    SimulatedPlates plates(14);
    CalibrationPlanOptions options;
    options.masses_kg = {10, 20};
    const auto steps = plan_calibration(plates.description(), options);
    REQUIRE(steps.ok());
    CalibrationGuide guide(plates.description(), steps.value(), local_g_m_s2);
    const auto run = [&](double seconds) {
        for (int i = 0; i < 100 * seconds; ++i) guide.take(plates.next());
    };
    plates.noise_n = 6.0;
    run(5);
    CHECK(guide.step() == 0);
    CHECK(guide.remark().find("shakes") != std::string::npos);
    plates.noise_n = 0.3;
    run(4);
    REQUIRE(guide.step() == 1);
    run(5);
    CHECK(guide.remark().find("Waiting for the load") != std::string::npos);
    plates.put_on_cell(0, 0, 30 * local_g_m_s2);
    run(5);
    CHECK(guide.remark().find("Enter") != std::string::npos);
    CHECK(guide.step() == 1);
    plates.clear();
    plates.put_on_cell(1, 0, 10 * local_g_m_s2);
    run(5);
    CHECK(guide.remark().find("not on the left plate") != std::string::npos);
    plates.clear();
    plates.put_on_cell(0, 2, 10 * local_g_m_s2);
    run(5);
    CHECK(guide.remark().find("cell 3") != std::string::npos);
    guide.accept();
    run(1);
    CHECK(guide.step() == 2);
    plates.drift_n_s = 3.0;
    run(5);
    CHECK(guide.step() == 2);
    CHECK(guide.remark().find("moves") != std::string::npos);
}

TEST_CASE("a plan that makes no sense is refused with a reason") {
    const DeviceDescription device = SimulatedPlates(1).description();
    CalibrationPlanOptions options;
    CHECK_FALSE(plan_calibration(device, options).ok());
    options.masses_kg = {20, 10};
    CHECK_FALSE(plan_calibration(device, options).ok());
    options.masses_kg = {10};
    options.method = CalibrationMethod::mat;
    CHECK_FALSE(plan_calibration(device, options).ok());
    options.method = CalibrationMethod::plate_points;
    CHECK_FALSE(plan_calibration(device, options).ok());
    const auto points =
        parse_points("plate,x_mm,y_mm\nright,10,20\nleft,-5,7.5\n", "points.csv", device.layout);
    REQUIRE(points.ok());
    CHECK(points.value()[0] == MarkedPoint{0, {-0.005, 0.0075}});
    const auto bad = parse_points("plate,x_mm,y_mm\nmiddle,1,2\n", "points.csv", device.layout);
    REQUIRE_FALSE(bad.ok());
    CHECK(bad.problem().place == "points.csv, line 2");
}

TEST_CASE("readings go through their file unchanged; a bad line is named") {
    SimulatedPlates plates(15);
    const Guided all = guided(plates, {});
    const DeviceDescription device = plates.description();
    std::string text = readings_header(device);
    for (const auto& reading : all.readings) text += readings_line(reading, device);
    const auto read = parse_readings(text, "readings.csv", device);
    REQUIRE_MESSAGE(read.ok(), sentence(read.problem()));
    const auto made =
        make_calibration(device, read.value(), weighing_at({}, {}, local_g_m_s2, 0.1), "2026-11-25", 12);
    REQUIRE(made.ok());
    CHECK(made.value().record.newtons_per_count == all.made.record.newtons_per_count);

    for (const auto& [what, by] :
         std::vector<std::pair<std::string, std::string>>{{",left,1,", ",left,9,"},
                                                          {",left,1,", ",nowhere,1,"},
                                                          {"2,10,", "2,ten,"},
                                                          {"2,10,", "2,-10,"}}) {
        std::string broken = text;
        broken.replace(broken.find(what), what.size(), by);
        const auto refused = parse_readings(broken, "readings.csv", device);
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.problem().place.find("readings.csv, line ") == 0);
    }
    CHECK_FALSE(parse_readings("", "readings.csv", device).ok());
    const auto incomplete = make_calibration(device, {all.readings.begin(), all.readings.begin() + 20},
                                             weighing_at({}, {}, local_g_m_s2, 0.1), "2026-11-25", 12);
    REQUIRE_FALSE(incomplete.ok());
    CHECK(incomplete.problem().place.find("the left plate, cell 4") != std::string::npos);
}

TEST_CASE("gravity's uncertainty depends on what is known of the place") {
    CHECK(weighing_at(52.0, 0.0, {}, 0.0).gravity_m_s2 == doctest::Approx(9.8124740779).epsilon(1e-9));
    CHECK(weighing_at({}, {}, {}, 0.0).gravity_relative_u > 0.0015);
    CHECK(weighing_at({}, {}, 9.81, 0.5).mass_relative_u == doctest::Approx(0.005 / std::sqrt(3.0)));
}

TEST_CASE("a record holds for whole months, to the last day of a shorter one") {
    CHECK(months_later("2026-11-25", 12) == "2027-11-25");
    CHECK(months_later("2026-08-31", 6) == "2027-02-28");
    CHECK(months_later("2027-08-31", 6) == "2028-02-29");
    CHECK(months_later("no date", 6).empty());
}

TEST_CASE("a record never overwrites, and appears whole") {
    const ScratchFolder scratch;
    REQUIRE(write_new_file(scratch / "cal.json", "one").ok());
    CHECK_FALSE(write_new_file(scratch / "cal.json", "two").ok());
    CHECK(read_file(scratch / "cal.json") == "one");
    CHECK_FALSE(write_new_file(scratch / "none/cal.json", "one").ok());
}

TEST_CASE("numbers carry no more digits than their uncertainty bears") {
    CHECK(with_uncertainty(0.250123456, 0.0000321) == "0.25012 ± 0.00003");
    CHECK(with_uncertainty(0.250123456, 0.0000121) == "0.250123 ± 0.000012");
    CHECK(with_uncertainty(5.0, 0.0) == "5");
}
