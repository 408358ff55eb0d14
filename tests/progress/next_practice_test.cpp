#include "analysis/progress/next_practice.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace footing;

namespace {

DistanceChart chart_of(const std::vector<std::vector<double>>& carries_m, std::int64_t today = 10) {
    std::vector<ChartShot> shots;
    for (std::size_t length = 0; length < carries_m.size(); ++length) {
        for (const double carry_m : carries_m[length]) {
            Carry carry;
            carry.carry_m = carry_m;
            carry.day = 1;
            shots.push_back({0, swing_lengths[length], carry});
        }
    }
    DistanceOptions options;
    options.today = today;
    return make_distance_chart({{"54", 54.0, Bag::in}}, shots, options);
}

std::vector<PracticeRule> rules(const std::vector<Advice>& advice) {
    std::vector<PracticeRule> all;
    for (const Advice& one : advice) all.push_back(one.rule);
    return all;
}

ProgressSeries worse(ProgressMeasure measure, double rise) {
    std::vector<ProgressPoint> points;
    for (std::size_t i = 0; i < 8; ++i)
        points.push_back({i, 10, (i < 4 ? 1.0 : 1.0 + rise) + 0.01 * (i % 2)});
    return progress_of_values(measure, points);
}

using Rule = PracticeRule;

}  // namespace

TEST_CASE("no numbers, no advice") {
    CHECK(next_practice(chart_of({}), {}, {}, {}, DistanceUnit::yards).empty());
}

TEST_CASE("each rule speaks when its condition holds") {
    std::vector<Advice> advice;
    WeightEffects effects;
    effects.strike.counts = {14, 3, 3, 9};
    effects.strike.test = fisher_test(effects.strike.counts);
    effects.strike.finding = Finding::more_than_chance;
    CHECK(rules(next_practice(chart_of({}), effects, {}, {}, DistanceUnit::yards)) ==
          std::vector{Rule::strike_and_band});
    effects.strike.test = fisher_test({3, 9, 14, 3});  // better outside: no advice to go inside
    CHECK(next_practice(chart_of({}), effects, {}, {}, DistanceUnit::yards).empty());
    effects.strike.finding = Finding::chance;
    effects.carry[1].measure = WeightMeasure::lowest;
    effects.carry[1].finding = Finding::more_than_chance;
    effects.carry[1].per_ten_points_m = -3.0;
    advice = next_practice(chart_of({}), effects, {}, {}, DistanceUnit::metres);
    REQUIRE(rules(advice) == std::vector{Rule::carry_and_weight});
    CHECK(advice[0].words.find("goes with 3 m less carry") != std::string::npos);

    const std::vector<ProgressSeries> fell{worse(ProgressMeasure::time_below, 1.0)};
    CHECK(rules(next_practice(chart_of({}), {}, fell, {}, DistanceUnit::yards)) ==
          std::vector{Rule::got_worse});
    const std::vector<ProgressSeries> better{worse(ProgressMeasure::time_below, -0.9),
                                             worse(ProgressMeasure::rhythm, 0.5),
                                             worse(ProgressMeasure::address_share, 0.5)};
    CHECK(next_practice(chart_of({}), {}, better, {}, DistanceUnit::yards).empty());

    // Known numbers in the wrong order; then numbers that are not known; then old ones.
    CHECK(rules(next_practice(chart_of({{60, 61, 62, 61}, {50, 51, 52, 51}}), {}, {}, {},
                              DistanceUnit::yards)) ==
          std::vector{Rule::order_of_numbers, Rule::number_missing});
    // SD 3.03 m: t_7 2.365 times 3.03 over sqrt 8 is 2.54, within 3 yd; t_6 2.447 over sqrt 7 is 2.81.
    advice = next_practice(chart_of({{40, 50}, {60, 66, 63, 58, 62}, {}}), {}, {}, {}, DistanceUnit::metres);
    REQUIRE(rules(advice) == std::vector{Rule::number_unknown, Rule::number_missing});
    CHECK(advice[1].words.find(
              "2 of the 3 numbers of the bag have fewer than 5 shots; begin with 3 more shots of 54 half") !=
          std::string::npos);
    CHECK(advice[0].words.find("54 three-quarter is 62 ± 4 m so far; about 3 more shots make") !=
          std::string::npos);
    CHECK(rules(next_practice(chart_of({{60, 61, 62, 61}}, 400), {}, {}, {}, DistanceUnit::yards)) ==
          std::vector{Rule::number_missing, Rule::number_old});
}

TEST_CASE("three sentences at most, the more important first") {
    WeightEffects effects;
    effects.carry[0].finding = Finding::more_than_chance;
    const std::vector<ProgressSeries> fell{worse(ProgressMeasure::carry_spread, 1.0)};
    const auto advice = next_practice(chart_of({{40, 50}}, 400), effects, fell,
                                      {{Rule::weight_outside, "settle"}}, DistanceUnit::yards);
    CHECK(rules(advice) == std::vector{Rule::weight_outside, Rule::carry_and_weight, Rule::got_worse});
    CHECK(advice[0].words == "settle");
}

TEST_CASE("all that the newest lesson asks to change is said, and nothing else beside more than three") {
    const std::vector<ProgressSeries> fell{worse(ProgressMeasure::carry_spread, 1.0)};
    const std::vector<Advice> four{{Rule::weight_outside, "a"},
                                   {Rule::weight_at_impact, "b"},
                                   {Rule::onto_trail_foot, "c"},
                                   {Rule::uneven_rhythm, "d"}};
    CHECK(rules(next_practice(chart_of({}), {}, fell, four, DistanceUnit::yards)) == rules(four));
}

TEST_CASE("a bag without a number says so of all of them") {
    const auto advice = next_practice(chart_of({{60, 61, 62}, {70}, {80}}), {}, {}, {}, DistanceUnit::yards);
    REQUIRE(rules(advice).back() == Rule::number_missing);
    CHECK(advice.back().words.find("all 3 numbers of the bag have fewer than 5 shots") != std::string::npos);
}
