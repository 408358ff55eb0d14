#include "analysis/distance/distance_cell.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "analysis/statistics/distributions.h"

using namespace footing;

namespace {

std::vector<Carry> carries(const std::vector<double>& carries_m) {
    std::vector<Carry> shots;
    for (const double carry_m : carries_m) {
        Carry carry;
        carry.shot = static_cast<std::int64_t>(shots.size()) + 1;
        carry.carry_m = carry_m;
        shots.push_back(carry);
    }
    return shots;
}

std::size_t index_set_aside(const DistanceCell& cell) {
    for (std::size_t i = 0; i < cell.shots.size(); ++i) {
        if (cell.shots[i].standing == Standing::set_aside) return i;
    }
    return cell.shots.size();
}

}  // namespace

TEST_CASE("five shots, worked by the formulas: what is kept, mean and spread") {
    // Carries are invented; mean, SD, G and interval were computed with numpy and scipy.
    struct Example {
        std::vector<double> shots;
        std::size_t set_aside;  // its place; 5: none
        double mean;
        double sd;
    };
    for (const Example& example :
         {Example{{82, 85, 84, 83, 61}, 4, 83.5, 1.2909944487},
          Example{{82, 85, 84, 83, 77}, 5, 82.2, 3.114482}, Example{{82, 85, 84, 83, 78}, 5, 82.4, 2.701851},
          Example{{82, 85, 84, 83, 80}, 5, 82.8, 1.923538},
          Example{{70, 71, 72, 73, 60}, 4, 71.5, 1.2909944487}}) {
        const DistanceCell cell = judge_cell(carries(example.shots), {});
        CAPTURE(example.shots[4]);
        CHECK(index_set_aside(cell) == example.set_aside);
        CHECK(cell.shots.size() == 5);
        REQUIRE(cell.sd_m.has_value());
        CHECK(std::abs(*cell.mean_m - example.mean) < 1e-9);
        CHECK(std::abs(*cell.sd_m - example.sd) < 1e-6);
        // A second opinion: Dixon's Q, gap over range, beyond 0.7102 (two-sided 5 % for five values, by
        // quadrature; Rorabacher 1991, Anal. Chem. 63:139, prints .710).
        std::vector<double> sorted = example.shots;
        std::sort(sorted.begin(), sorted.end());
        const double gap = std::max(sorted[1] - sorted[0], sorted[4] - sorted[3]);
        CHECK((gap / (sorted[4] - sorted[0]) > 0.7102) == (cell.set_aside() > 0));
    }
    // 95 % interval of the fourth: t_4 = 2.776445 times 0.8602325267.
    const DistanceCell fourth = judge_cell(carries({82, 85, 84, 83, 80}), {});
    CHECK(std::abs(*fourth.half_width_m - 2.388388) < 1e-6);
}

TEST_CASE("a shot set aside by the test makes the interval wider, one by the coach does not") {
    // Kept 82 85 84 83, SD 1.2909944; 61 counts as the edge of their 95 % range, 83.5 - 3.182446 * 1.2909944
    // * sqrt(1.25) = 78.906534: SD of the five 2.3387999 (numpy), times sqrt(4/3); 4 - 1 - 1 = 2 degrees of
    // freedom, t 4.302653; over sqrt 4.
    const DistanceCell tested = judge_cell(carries({82, 85, 84, 83, 61}), {});
    CHECK(std::abs(*tested.fair_sd_m - 2.3387999 * std::sqrt(4.0 / 3.0)) < 1e-5);
    CHECK(tested.degrees_of_freedom == 2.0);
    CHECK(std::abs(*tested.half_width_m - 4.302653 * 2.3387999 * std::sqrt(4.0 / 3.0) / 2.0) < 1e-4);
    std::vector<Carry> shots = carries({82, 85, 84, 83, 61});
    shots[4].coach = CoachSays::set_aside;
    const DistanceCell told = judge_cell(shots, {});
    CHECK(std::abs(*told.half_width_m - 3.182446 * 1.2909944487 / 2.0) < 1e-5);
}

TEST_CASE("the coach overrules the test either way, and every shot keeps its reason") {
    std::vector<Carry> shots = carries({82, 85, 84, 83, 61});
    shots[4].coach = CoachSays::keep;
    DistanceCell cell = judge_cell(shots, {});
    CHECK(cell.kept == 5);
    CHECK(*cell.mean_m == doctest::Approx(79.0));
    CHECK(cell.shots[4].reason.find("kept by the coach") == 0);
    CHECK(cell.shots[4].reason.find("G 1.78, limit 1.72") != std::string::npos);

    shots = carries({82, 85, 84, 83, 80});
    shots[0].coach = CoachSays::set_aside;
    shots[0].reason = "topped";
    cell = judge_cell(shots, {});
    CHECK(cell.kept == 4);
    CHECK(cell.set_aside() == 1);
    CHECK(cell.shots[0].reason == "the coach: topped");
    CHECK(*cell.mean_m == doctest::Approx(83.0));
}

TEST_CASE("with fewer than five shots only the coach sets one aside") {
    const DistanceCell cell = judge_cell(carries({82, 82.1, 82.2, 20}), {});
    CHECK(cell.kept == 4);
}

TEST_CASE("two outliers among many are both found; a clean set keeps nearly all its shots") {
    std::vector<double> many{80, 81, 82, 83, 84, 85, 86, 82, 83, 84, 45, 30};
    CHECK(judge_cell(carries(many), {}).kept == 10);
    std::mt19937 random(7);
    std::normal_distribution<double> carry(70.0, 6.0);
    std::size_t touched = 0;
    constexpr std::size_t sets = 4000;
    for (std::size_t set = 0; set < sets; ++set) {
        std::vector<double> shots(5);
        for (double& shot : shots) shot = carry(random);
        if (judge_cell(carries(shots), {}).set_aside() > 0) ++touched;
    }
    // 5.0 % of clean five-shot sets lose a shot (400,000 sets in numpy gave 5.0 %).
    CHECK(static_cast<double>(touched) / sets == doctest::Approx(0.05).epsilon(0.25));
}

TEST_CASE("of five shots, one in twenty sets losing a sound one, what is stated still holds") {
    std::mt19937 random(11);
    std::normal_distribution<double> carry(70.0, 6.0);
    double means_inside = 0.0;
    double next_inside = 0.0;
    constexpr int sets = 12000;
    for (int set = 0; set < sets; ++set) {
        std::vector<double> shots(5);
        for (double& shot : shots) shot = carry(random);
        const DistanceCell cell = judge_cell(carries(shots), {});
        means_inside += std::abs(*cell.mean_m - 70.0) <= *cell.half_width_m;
        const double reach = student_t_quantile(0.9, cell.degrees_of_freedom) * *cell.fair_sd_m *
                             std::sqrt(1.0 + 1.0 / static_cast<double>(cell.kept));
        next_inside += std::abs(carry(random) - *cell.mean_m) <= reach;
    }
    // Aim: to two points; 0.4 points is the standard deviation of this many trials.
    CHECK(std::abs(means_inside / sets - 0.95) < 0.02);
    CHECK(std::abs(next_inside / sets - 0.80) < 0.02);
}

TEST_CASE("little is known from little") {
    const DistanceCell none = judge_cell({}, {});
    CHECK(none.kept == 0);
    CHECK_FALSE(none.mean_m.has_value());
    const DistanceCell one = judge_cell(carries({75}), {});
    CHECK(*one.mean_m == 75.0);
    CHECK_FALSE(one.sd_m.has_value());
    CHECK_FALSE(one.half_width_m.has_value());
    CHECK_FALSE(one.shots_needed.has_value());
    const DistanceCell same = judge_cell(carries({75, 75, 75}), {});
    CHECK(*same.sd_m == 0.0);
    CHECK(*same.shots_needed == 0);
}

TEST_CASE("shots alike to the last digit are known to the width of a reading, not without a doubt") {
    // A reading of one yard: a rectangle of half a yard either way, SD 1/sqrt(12) (JCGM 100:2008, F.2.2.1).
    const DistanceCell cell = judge_cell(carries({70, 70, 70, 70, 70}), {});
    CHECK(*cell.sd_m == 0.0);
    CHECK(*cell.fair_sd_m == doctest::Approx(0.9144 / std::sqrt(12.0)).epsilon(1e-12));
    // t of 4 degrees of freedom, 2.776445
    CHECK(*cell.half_width_m ==
          doctest::Approx(2.776445 * 0.9144 / std::sqrt(12.0) / std::sqrt(5.0)).epsilon(1e-6));
    CHECK(usual_limits(DistanceUnit::metres).known_within_m == 3.0);
    CHECK(usual_limits(DistanceUnit::yards).widest_gap_m == doctest::Approx(13.716));
}

TEST_CASE("shots still needed: the first number of shots whose interval is narrow enough") {
    // t.975: 19 degrees 2.093024, 18 degrees 2.100922 (Student's table): for SD 6 and 3 either way 18 shots
    // give 2.1098 * 6 / sqrt 18 = 2.984, 17 give 2.1199 * 6 / sqrt 17 = 3.085.
    CHECK(shots_to_know(6.0, 3.0, 0.95) == 18);
    CHECK(shots_to_know(1.0, 100.0, 0.95) == 2);
    DistanceOptions options;
    options.known_within_m = 3.0;
    DistanceCell cell = judge_cell(carries({82, 85, 84, 83, 80}), options);
    CHECK(*cell.shots_needed == 0);  // 2.39 is within 3
    options.known_within_m = 1.0;
    cell = judge_cell(carries({82, 85, 84, 83, 80}), options);
    // t_16 2.1199 * 1.923538 / sqrt 17 = 0.989; t_15 2.1314 / sqrt 16 = 1.025.
    CHECK(*cell.shots_needed == 17 - 5);
}

TEST_CASE("lengths and distances by name") {
    for (const SwingLength length : swing_lengths) CHECK(length_called(length_name(length)) == length);
    CHECK(length_called("3/4") == SwingLength::three_quarter);
    CHECK_FALSE(length_called("quarter").has_value());
    CHECK(distance_words(75.0, DistanceUnit::yards) == "82 yd");
    CHECK(distance_words(-0.01, DistanceUnit::metres) == "0 m");
    CHECK(distance_words(-3.2, DistanceUnit::metres, 1) == "−3.2 m");
}
