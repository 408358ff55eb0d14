#include "acquisition/import/load_survey.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <string>

#include "acquisition/import/csv_document.h"
#include "acquisition/import/csv_import.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"

using namespace footing;

namespace {

/// Somebody of 75 kg, 735.5 N, on two plates for ten seconds, told in another unit.
std::string standing_in(double newtons_per_unit, double rate_hz = 100.0) {
    std::string csv = "time_s,left_n,right_n\n";
    for (int i = 0; i < 1000; ++i) {
        const double left_n = 480.0 + 5.0 * std::sin(0.01 * i);
        csv += fmt::format("{:.4f},{:.6g},{:.6g}\n", i / rate_hz, left_n / newtons_per_unit,
                           (735.5 - left_n) / newtons_per_unit);
    }
    return csv;
}

CsvDocument checked(const std::string& csv) {
    auto document = CsvDocument::check(csv, "t.csv", std::nullopt);
    if (!document) FAIL(sentence(document.problem()));
    return std::move(document).value();
}

std::string only_doubt(const std::string& csv) {
    const CsvDocument document = checked(csv);
    REQUIRE(document.doubts().size() == 1);
    return document.doubts().front();
}

std::string refused_table(const std::string& csv) {
    const auto document = CsvDocument::check(csv, "t.csv", std::nullopt);
    REQUIRE_FALSE(document.ok());
    CHECK(document.problem().kind == ProblemKind::bad_input);
    return sentence(document.problem());
}

bool has_part(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

// Kilogram-force 9.80665 N, pound-force 4.4482216152605 N: NIST SP 811 (2008), appendix B.8.
TEST_CASE("loads in other units are doubted, and the unit is named in which they would be a person's") {
    CHECK(checked(standing_in(1.0)).doubts().empty());
    CHECK(has_part(only_doubt(standing_in(9.80665)), "in kilograms (9.80665 N each) 75 kg"));
    CHECK(has_part(only_doubt(standing_in(4.4482216152605)), "in pounds (4.44822 N each) 75 kg"));
    CHECK(has_part(only_doubt(standing_in(1000.0)), "in kilonewtons (1000 N each) 75 kg"));
    CHECK(has_part(only_doubt(standing_in(9.80665e-3)), "in grams (0.00980665 N each) 75 kg"));
    CHECK(has_part(only_doubt(standing_in(1.0 / 20.0)), "more than any golfer's"));
}

TEST_CASE("a load that no plate bears is refused at its line and column") {
    std::string csv = standing_in(1.0);
    csv.insert(csv.find('\n') + 1, "-0.01,400,1e9\n");
    const std::string said = refused_table(csv);
    CHECK(has_part(said, "line 2"));
    CHECK(has_part(said, "right_n"));
    CHECK(has_part(said, "1e+09 N is more than any plate bears"));
    CHECK(has_part(said, "--scale"));
}

TEST_CASE("loads below zero are refused, of one foot or of both; a plate that drifts is not") {
    const std::string both = refused_table(standing_in(-1.0));
    CHECK(has_part(both, "t.csv, column left_n"));
    CHECK(has_part(both, "--scale -1"));
    std::string one = "time_s,left_n,right_n\n";
    std::string drifting = one;
    for (int i = 0; i < 1000; ++i) {
        one += fmt::format("{:.3f},400,-335\n", i * 0.01);
        drifting += fmt::format("{:.3f},735,{}\n", i * 0.01, -0.04 * i);
    }
    CHECK(has_part(refused_table(one), "column right_n"));
    CHECK(checked(drifting).doubts().empty());
}

TEST_CASE("a spike, an empty plate before and after, and a landing are no reason for doubt") {
    LoadSurvey loads;
    for (int i = 0; i < 10000; ++i) {
        const bool stood = i > 4000 && i < 6000;
        const bool landed = i > 5000 && i < 5100;  // five body weights for a tenth of a second
        loads.add(i == 10 ? 90000.0 : landed ? 3700.0 : stood ? 735.0 : -3.0);
    }
    CHECK(loads.doubt().empty());
    CHECK_FALSE(loads.hangs());
}

TEST_CASE("times that cannot be seconds are doubted") {
    CHECK(has_part(only_doubt(standing_in(1.0, 0.1)), "turn them into seconds"));
}

TEST_CASE("what is doubted stands in the recording, too; the scale given, loads are in newtons") {
    const test::ScratchFolder folder;
    test::write_file(folder / "kg.csv", standing_in(9.80665));
    const auto doubted = import_csv(folder / "kg.csv", folder / "kg.h5", {});
    REQUIRE(doubted.ok());
    REQUIRE(doubted.value().doubts.size() == 1);
    auto reader = RecordingReader::open(folder / "kg.h5");
    REQUIRE(reader.ok());
    CHECK(reader.value().info().notes.back().text == doubted.value().doubts.front());
    CsvImportOptions scaled;
    scaled.newtons_per_unit = 9.80665;
    const auto sound = import_csv(folder / "kg.csv", folder / "newtons.h5", scaled);
    REQUIRE(sound.ok());
    CHECK(sound.value().doubts.empty());
    auto in_newtons = RecordingReader::open(folder / "newtons.h5");
    REQUIRE(in_newtons.ok());
    const auto block = in_newtons.value().read(0, 1);
    REQUIRE(block.ok());
    const auto& values = std::get<std::vector<double>>(block.value().values);
    CHECK(values[2] == doctest::Approx(480.0).epsilon(1e-5));
    CHECK(values[8] == doctest::Approx(255.5).epsilon(1e-5));
}
