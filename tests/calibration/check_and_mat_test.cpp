#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "analysis/statistics/calibration_fit_mat.h"
#include "tests/calibration/simulated_plates.h"
#include "viewer/calibration/calibration_words.h"
#include "viewer/calibration/make_calibration.h"
#include "viewer/calibration/quick_check.h"

using namespace footing;
using namespace footing::test;

namespace {

constexpr double weight_kg = 75.0;
constexpr double weight_n = weight_kg * 9.80665;

/// Goes through the four steps of the check, each for five seconds.
CheckResult checked(SimulatedPlates& plates, std::optional<double> stated_kg) {
    CheckOptions options;
    options.weight_kg = stated_kg;
    QuickCheck check(plates.description(), nominal_calibration(plates.description(), 1.0), options);
    const auto stand = [&](double left, double right) {
        plates.clear();
        plates.put(0, left * weight_n, {0.01, 0.02});
        plates.put(1, right * weight_n, {-0.01, 0.02});
        for (int i = 0; i < 500; ++i) check.take(plates.next());
    };
    stand(0, 0);
    stand(0.55, 0.45);
    CHECK(check.step() == CheckStep::left_only);
    stand(0.9, 0.1);  // not enough: the right foot is still down
    CHECK(check.step() == CheckStep::left_only);
    CHECK(check.remark().find("right plate") != std::string::npos);
    stand(1, 0);
    stand(0, 1);
    CHECK(check.finished());
    return check.result();
}

SimulatedPlates plates_of(double left, double right) {
    SimulatedPlates plates(21);
    for (std::size_t i = 0; i < 8; ++i) plates.gains[i] = SimulatedPlates::nominal * (i < 4 ? left : right);
    return plates;
}

}  // namespace

TEST_CASE("plates that read true agree with the weight and with each other") {
    SimulatedPlates plates = plates_of(1.001, 0.999);
    const CheckResult result = checked(plates, weight_kg);
    CHECK(result.overall() == Agreement::agrees);
    CHECK(result.comparisons.size() == 4);
    CHECK(result.both_n.value() == doctest::Approx(weight_n).epsilon(0.002));
    CHECK(result.advice.size() == 1);
    const auto said = nlohmann::json::parse(check_json(result));
    CHECK(said.at("overall") == "agrees");
    CHECK(said.at("elsewhere_n").is_null());
}

TEST_CASE("a plate that reads 4 % low is found, with what it does to a share") {
    SimulatedPlates plates = plates_of(1.04, 1.0);  // needs more newtons a count than it says: reads low
    const CheckResult result = checked(plates, weight_kg);
    CHECK(result.overall() == Agreement::differs);
    CHECK(result.share_error.value() == doctest::Approx(0.75 * 0.25 * (1 / 1.04 - 1)).epsilon(0.05));
    CHECK(check_words(result).find("DIFFERS") != std::string::npos);
    CHECK(check_words(result).find("shares are wrong") != std::string::npos);
    const CheckResult without = checked(plates, std::nullopt);
    CHECK(without.comparisons.size() == 1);
    CHECK(without.overall() == Agreement::differs);
}

TEST_CASE("plates that agree with each other but not with the weight still tell shares") {
    SimulatedPlates plates = plates_of(1.04, 1.04);
    const CheckResult result = checked(plates, weight_kg);
    CHECK(result.overall() == Agreement::differs);
    CHECK(check_words(result).find("shares hold") != std::string::npos);
}

TEST_CASE("a difference near 2 % is too close to call (JCGM 106)") {
    SimulatedPlates plates = plates_of(1 / 1.0195, 1 / 1.0195);
    const CheckResult result = checked(plates, weight_kg);
    CHECK(result.overall() == Agreement::too_close);
}

TEST_CASE("plates that touch each other are found") {
    SimulatedPlates plates = plates_of(1.0, 1.0);
    CheckOptions options;
    QuickCheck check(plates.description(), nominal_calibration(plates.description(), 1.0), options);
    const auto stand = [&](double left, double right) {
        plates.clear();
        plates.put(0, left * weight_n, {});
        plates.put(1, right * weight_n, {});
        for (int i = 0; i < 500; ++i) check.take(plates.next());
    };
    stand(0, 0);
    stand(0.5, 0.5);
    stand(0.97, 0.03);
    stand(0.03, 0.97);
    REQUIRE(check.finished());
    CHECK(check_words(check.result()).find("touch each other") != std::string::npos);
}

TEST_CASE("the check says mat where there is a mat, and that one may stand on both feet") {
    DeviceDescription mat;
    mat.layout.kind = FrameKind::grid;
    mat.layout.grid = Grid{4, 4, 0.01, 0.01, {}};
    const QuickCheck on_mat(mat, nominal_calibration(mat, 1.0), {});
    CHECK(on_mat.instruction() == "Leave the mat empty.");
    SimulatedPlates plates = plates_of(1.0, 1.0);
    QuickCheck on_plates(plates.description(), nominal_calibration(plates.description(), 1.0), {});
    CHECK(on_plates.instruction() == "Leave the plates empty.");
    const auto stand = [&](double left, double right) {
        plates.clear();
        plates.put(0, left * weight_n, {});
        plates.put(1, right * weight_n, {});
        for (int i = 0; i < 500; ++i) on_plates.take(plates.next());
    };
    stand(0, 0);
    stand(0.5, 0.5);
    CHECK(on_plates.instruction().find("both feet if they fit") != std::string::npos);
    CHECK(on_plates.instruction().find("touch neither") != std::string::npos);
}

TEST_CASE("a share that is known very well is not told as known to nothing") {
    const SimulatedPlates plates = plates_of(1.0, 1.0);
    Calibration record = nominal_calibration(plates.description(), 1.0);
    record.relative_u = 1e-5;
    record.common_relative_u = 1e-5;
    const std::string words = calibration_words(record, plates.description(), {});
    CHECK_MESSAGE(words.find("a lead share of 75 % to less than ±0.01 %") != std::string::npos, words);
}

TEST_CASE("a walk over a mat finds its dead, weak and clipped elements, and one weight its factor") {
    constexpr std::size_t rows = 12;
    constexpr std::size_t columns = 16;
    constexpr std::size_t dead = 5 * columns + 7;
    constexpr std::size_t weak = 8 * columns + 3;
    constexpr std::size_t hot = 3 * columns + 12;
    MatSurvey survey(rows, columns, 1000.0);
    std::mt19937_64 random(4);
    std::uniform_real_distribution<double> anywhere(0.0, 1.0);
    survey.take_empty(std::vector<std::uint16_t>(rows * columns, 1));
    for (int frame = 0; frame < 4000; ++frame) {
        const double centre_row = anywhere(random) * rows;
        const double centre_column = anywhere(random) * columns;
        std::vector<std::uint16_t> counts(rows * columns, 1);
        for (std::size_t r = 0; r < rows; ++r) {
            for (std::size_t c = 0; c < columns; ++c) {
                const std::size_t i = r * columns + c;
                const double distance = std::hypot(r + 0.5 - centre_row, c + 0.5 - centre_column);
                if (distance > 3.0) continue;
                const double response = i == dead ? 0.0 : i == weak ? 0.3 : i == hot ? 4.0 : 1.0;
                counts[i] =
                    static_cast<std::uint16_t>(std::min(1000.0, 1.0 + response * (400.0 - 100.0 * distance)));
            }
        }
        survey.take(counts);
    }
    CHECK(survey.covered() == 1.0);
    const MatFindings found = survey.findings();
    CHECK(found.dead == std::vector<std::uint32_t>{dead});
    CHECK(found.weak == std::vector<std::uint32_t>{weak});
    CHECK(found.clipped == std::vector<std::uint32_t>{hot});
    CHECK(found.unchecked.empty());
    CHECK(found.response[0] > 0.5);
    CHECK(MatSurvey(rows, columns, 1000.0).findings().unchecked.size() == rows * columns);

    const auto factor = mat_factor(700.0, std::vector<double>{7000.0, 7100.0, 6900.0});
    REQUIRE(factor.has_value());
    CHECK(factor->newtons_per_count == doctest::Approx(0.1).epsilon(1e-3));
    CHECK(factor->relative_u > 0.014);  // three places that differ by 1.4 %
    CHECK_FALSE(mat_factor(700.0, std::vector<double>{0.0}).has_value());

    DeviceDescription mat;
    mat.serial = 9;
    mat.layout = {FrameKind::grid, {}, Grid{rows, columns, 0.01, 0.01, {}}};
    const auto reading = [&](double kg, double each) {
        CalibrationReading taken;
        taken.mass_kg = kg;
        taken.counts.assign(rows * columns, each);
        return taken;
    };
    const auto made =
        make_mat_calibration(mat, {reading(0, 1), reading(70, 31), reading(0, 1), reading(70, 32)}, found,
                             weighing_at({}, {}, 9.81, 0.1), "2026-11-25", 12);
    REQUIRE(made.ok());
    const double expected = 70 * 9.81 / (rows * columns) * (1 / 30.0 + 1 / 31.0) / 2.0;
    CHECK(made.value().record.newtons_per_count[0] == doctest::Approx(expected));
    CHECK(made.value().record.elements->dead == found.dead);
    const auto again = parse_calibration(calibration_json(made.value().record), "mat.json");
    REQUIRE(again.ok());
    CHECK(again.value().elements == made.value().record.elements);
}
