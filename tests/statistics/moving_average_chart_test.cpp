#include "analysis/statistics/moving_average_chart.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

using namespace footing;

TEST_CASE("the worked example of the NIST/SEMATECH e-Handbook, 6.3.2.4") {
    // Data from memory; the averages are as the handbook prints them.
    const std::vector<double> data{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
                                   49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    const std::vector<double> printed{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
                                      50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99};
    const auto chart = moving_average_chart(data, 50.0, 2.0539);
    REQUIRE(chart.average.size() == printed.size());
    for (std::size_t i = 0; i < printed.size(); ++i) CHECK(std::abs(chart.average[i] - printed[i]) < 0.006);
    CHECK(50.0 + chart.final_limit == doctest::Approx(52.5884).epsilon(1e-6));
    CHECK(50.0 - chart.final_limit == doctest::Approx(47.4115).epsilon(3e-6));
    CHECK_FALSE(chart.first_beyond.has_value());
    CHECK(chart.limit.front() == doctest::Approx(3.0 * 2.0539 * 0.3));  // one value: its weight times its SD
    CHECK(chart.limit.back() < chart.final_limit);
}

TEST_CASE("a step is noticed") {
    std::vector<double> values(10, 0.0);
    values.resize(20, 2.0);
    const auto chart = moving_average_chart(values, 0.0, 1.0);
    REQUIRE(chart.first_beyond.has_value());
    CHECK(*chart.first_beyond > 9);
    CHECK(*chart.first_beyond < 15);
}

TEST_CASE("a target that is the mean of five values before: the limits have the variance that is seen") {
    // 40,000 rows of standard normal values: after 1, 4 and 20 values the average less the target has an SD
    // of a third of the limit.
    std::mt19937 random(3);
    std::normal_distribution<double> one(0.0, 1.0);
    std::vector<double> squares(20, 0.0);
    MovingAverageChart chart;
    constexpr int rows = 40000;
    for (int row = 0; row < rows; ++row) {
        double target = 0.0;
        for (int i = 0; i < 5; ++i) target += one(random) / 5.0;
        std::vector<double> values(20);
        for (double& value : values) value = one(random);
        chart = moving_average_chart(values, target, 1.0, 0.3, 3.0, 1.0 / std::sqrt(5.0));
        for (std::size_t i = 0; i < values.size(); ++i)
            squares[i] += (chart.average[i] - target) * (chart.average[i] - target);
    }
    for (const std::size_t i : {0, 3, 19}) {
        CAPTURE(i);
        CHECK(std::sqrt(squares[i] / rows) == doctest::Approx(chart.limit[i] / 3.0).epsilon(0.015));
    }
}
