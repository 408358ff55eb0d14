#include "analysis/statistics/repeatability.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/summary.h"

using namespace footing;

TEST_CASE("ICC(1,1) of Shrout & Fleiss 1979, Table 2; groups of one size are a case of unequal ones") {
    // Psychol. Bull. 86:420; the data from memory, but the printed value, .17, comes out.
    const std::vector<std::vector<double>> table{{9, 2, 5, 8}, {6, 1, 3, 2},  {8, 4, 6, 8},
                                                 {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
    CHECK(intraclass_correlation_unequal(table).value() == doctest::Approx(0.1657417684).epsilon(1e-9));
    CHECK_FALSE(intraclass_correlation_unequal({{1.0}, {2.0}}).has_value());
    CHECK_FALSE(intraclass_correlation_unequal({{1.0, 2.0}}).has_value());
}

TEST_CASE("detectable change and limits of agreement of two trials (Weir 2005; Bland & Altman 1986)") {
    // Data from memory, after Weir 2005, where the typical error is 7.5569; checked with exact fractions.
    const std::vector<double> first{146, 148, 170, 90, 157, 156, 176, 205};
    const std::vector<double> second{140, 152, 152, 99, 145, 153, 167, 218};
    CHECK(minimal_detectable_change(7.5569268) == doctest::Approx(20.946732).epsilon(1e-7));
    const auto limits = agreement(first, second);
    REQUIRE(limits);
    CHECK(limits->sd / std::sqrt(2.0) == doctest::Approx(7.5569268).epsilon(1e-8));
    CHECK(limits->low == doctest::Approx(-18.1967).epsilon(1e-5));
    CHECK(limits->high == doctest::Approx(23.6967).epsilon(1e-5));
}

TEST_CASE("limits of agreement of two peak flow meters (Bland & Altman 1986, Lancet i:307)") {
    const std::vector<double> large{494, 395, 516, 434, 476, 557, 413, 442, 650,
                                    433, 417, 656, 267, 478, 178, 423, 427};
    const std::vector<double> mini{512, 430, 520, 428, 500, 600, 364, 380, 658,
                                   445, 432, 626, 260, 477, 259, 350, 451};
    const auto two_sd = agreement(large, mini, 2.0);
    REQUIRE(two_sd);
    CHECK(two_sd->pairs == 17);
    CHECK(two_sd->bias == doctest::Approx(-2.117647).epsilon(1e-6));
    CHECK(two_sd->sd == doctest::Approx(38.765130).epsilon(1e-7));
    CHECK(two_sd->low == doctest::Approx(-79.6479).epsilon(1e-6));  // the paper: -79.7 to 75.5
    CHECK(two_sd->high == doctest::Approx(75.4126).epsilon(1e-6));
    CHECK(two_sd->bias_se == doctest::Approx(9.4019).epsilon(1e-5));
    CHECK(two_sd->limit_se == doctest::Approx(16.2846).epsilon(1e-5));
    const auto usual = agreement(large, mini);
    CHECK(usual->low == doctest::Approx(-78.0973).epsilon(1e-6));
    CHECK(usual->high == doctest::Approx(73.8620).epsilon(1e-6));
    CHECK_FALSE(agreement(std::vector<double>{1.0}, std::vector<double>{2.0}).has_value());
}

TEST_CASE("a drift widens the SD but not the typical error from swing to swing") {
    std::mt19937 random(5);
    std::normal_distribution<double> noise(0.0, 1.0);
    std::vector<double> drifting;
    for (int i = 0; i < 400; ++i) drifting.push_back(0.05 * i + noise(random));
    CHECK(standard_deviation(drifting) > 5.0);
    CHECK(typical_error_in_a_row(drifting).value() == doctest::Approx(1.0).epsilon(0.08));
    CHECK_FALSE(typical_error_in_a_row(std::vector<double>{1.0, 2.0}).has_value());
}

TEST_CASE("a change between two lessons of alike swings is called real in about 5 of 100 cases") {
    std::mt19937 random(7);
    std::normal_distribution<double> swing(0.74, 0.015);
    std::normal_distribution<double> common(0.0, 0.004);
    int real = 0;
    constexpr int trials = 4000;
    for (int trial = 0; trial < trials; ++trial) {
        std::vector<double> first;
        std::vector<double> second;
        const double first_wrong = common(random);
        const double second_wrong = common(random);
        for (int i = 0; i < 6; ++i) first.push_back(swing(random) + first_wrong);
        for (int i = 0; i < 9; ++i) second.push_back(swing(random) + second_wrong);
        const auto change = change_of_means(first, second, 0.004, 0.004);
        real += change->verdict == ChangeVerdict::real ? 1 : 0;
    }
    MESSAGE("called real though alike: ", 100.0 * real / trials, " %");
    CHECK(real > trials * 0.025);
    CHECK(real < trials * 0.065);
}

TEST_CASE("a change of means against scipy's Welch test") {
    // scipy 1.10.1: ttest_ind(second, first, equal_var=False) has 7.96289636544422 degrees of freedom and t
    // = 3.6657; stats.t.ppf(0.975, 7.96289636544422) times the standard error is 1.773655032982138.
    const std::vector<double> first{70.1, 72.4, 71.8, 69.9, 73.0};
    const std::vector<double> second{74.0, 73.1, 76.2, 74.9, 72.8, 75.1, 73.7};
    const auto change = change_of_means(first, second, 0.0, 0.0);
    REQUIRE(change);
    CHECK(change->difference == doctest::Approx(2.817142857142855).epsilon(1e-12));
    CHECK(change->degrees_of_freedom == doctest::Approx(7.96289636544422).epsilon(1e-12));
    CHECK(change->detectable == doctest::Approx(1.773655032982138).epsilon(1e-9));
    CHECK(change->verdict == ChangeVerdict::real);
    CHECK(change_of_means(first, second, 0.5, 0.5)->detectable > change->detectable);
    CHECK_FALSE(change_of_means(std::vector<double>{1.0}, second, 0.0, 0.0).has_value());
}

TEST_CASE("mean squares between and within: NIST StRD SiRstv, five instruments, five readings") {
    // Certified mean squares; the intraclass correlation follows from them (Shrout & Fleiss 1979, case 1).
    constexpr double between_ms = 1.27865654384000e-02;
    constexpr double within_ms = 1.08318280000000e-02;
    const auto icc = intraclass_correlation_unequal({{196.3052, 196.1240, 196.1890, 196.2569, 196.3403},
                                                     {196.3042, 196.3825, 196.1669, 196.3257, 196.0422},
                                                     {196.1303, 196.2005, 196.2889, 196.0343, 196.1811},
                                                     {196.2795, 196.1748, 196.1494, 196.1485, 195.9885},
                                                     {196.2119, 196.1051, 196.1850, 196.0052, 196.2090}});
    REQUIRE(icc);
    CHECK(*icc == doctest::Approx((between_ms - within_ms) / (between_ms + 4.0 * within_ms)).epsilon(1e-8));
}
