// Grubbs' test against published values: NIST/SEMATECH e-Handbook 1.3.5.17.1, the tables of Grubbs & Beck
// 1972 (Technometrics 14:847; as in ASTM E178) and five-shot examples worked by the formula.
#include "analysis/statistics/outlier_test.h"

#include <doctest/doctest.h>

#include <cmath>
#include <utility>
#include <vector>

using namespace footing;

TEST_CASE("NIST e-Handbook 1.3.5.17.1: uranium isotope, the eighth reading is an outlier") {
    const std::vector<double> readings{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
    const auto test = grubbs_test(readings, 0.05);
    REQUIRE(test.has_value());
    CHECK(test->index == 7);
    CHECK(test->g == doctest::Approx(2.46876461121245).epsilon(1e-12));
    CHECK(std::abs(test->critical - 2.126645) < 5e-6);
    CHECK(test->is_outlier());
    // The handbook prints the one-sided limit, 2.032: the two-sided one at twice the level.
    CHECK(std::abs(grubbs_critical(8, 0.10) - 2.031652) < 5e-6);
}

TEST_CASE("Grubbs & Beck 1972: critical values, two-sided 5 % and 1 %") {
    const std::vector<std::pair<double, double>> table{
        {1.1543, 1.1547}, {1.4812, 1.4962}, {1.7150, 1.7637}, {1.8871, 1.9728}, {2.0200, 2.1391},
        {2.1266, 2.2744}, {2.2150, 2.3868}, {2.2900, 2.4821}, {2.3547, 2.5641}, {2.4116, 2.6357},
        {2.4620, 2.6990}, {2.5073, 2.7554}, {2.5483, 2.8061}, {2.5857, 2.8521}, {2.6200, 2.8940},
        {2.6516, 2.9325}, {2.6809, 2.9680}, {2.7082, 3.0008}};
    for (std::size_t i = 0; i < table.size(); ++i) {
        const std::size_t n = i + 3;
        CAPTURE(n);
        CHECK(std::abs(grubbs_critical(n, 0.05) - table[i].first) < 6e-5);
        CHECK(std::abs(grubbs_critical(n, 0.01) - table[i].second) < 6e-5);
    }
    // An independent public table of the one-sided 5 % values.
    for (const auto& [n, value] : std::vector<std::pair<std::size_t, double>>{
             {3, 1.1531}, {4, 1.4625}, {5, 1.6714}, {8, 2.0317}, {10, 2.1761}, {15, 2.4090}, {20, 2.5566}}) {
        CHECK(std::abs(grubbs_critical(n, 0.10) - value) < 6e-5);
    }
}

TEST_CASE("five shots: G cannot reach two, so a rule of two standard deviations would never fire") {
    const auto extreme = grubbs_test(std::vector{80.0, 80.0, 80.0, 80.0, 1.0}, 0.05);
    REQUIRE(extreme.has_value());
    CHECK(extreme->g == doctest::Approx(4.0 / std::sqrt(5.0)).epsilon(1e-12));
    CHECK(extreme->g < 1.7889);
    CHECK(extreme->is_outlier());
}

TEST_CASE("no test where there is nothing to test") {
    CHECK_FALSE(grubbs_test(std::vector{1.0, 9.0}, 0.05).has_value());
    CHECK_FALSE(grubbs_test(std::vector{5.0, 5.0, 5.0, 5.0}, 0.05).has_value());
    CHECK_FALSE(grubbs_test({}, 0.05).has_value());
}
