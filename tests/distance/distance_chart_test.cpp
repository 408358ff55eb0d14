#include "analysis/distance/distance_chart.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "analysis/distance/club_choice.h"
#include "tests/distance/yard.h"

using namespace footing;
using test::yard;

namespace {

std::vector<ChartWedge> wedges(std::size_t count) {
    std::vector<ChartWedge> bag;
    for (std::size_t i = 0; i < count; ++i) {
        const double loft = 60.0 - 4.0 * static_cast<double>(i);
        bag.push_back({std::to_string(static_cast<int>(loft)), loft, Bag::in});
    }
    return bag;
}

void add(std::vector<ChartShot>& shots, std::size_t wedge, SwingLength length,
         const std::vector<double>& carries_yd, std::int64_t day = 20000) {
    for (const double carry_yd : carries_yd) {
        ChartShot shot{wedge, length, {}};
        shot.carry.carry_m = carry_yd * yard;
        shot.carry.day = day;
        shots.push_back(shot);
    }
}

DistanceOptions on_day(std::int64_t day) {
    DistanceOptions options;
    options.today = day;
    return options;
}

std::size_t count(const DistanceChart& chart, WarningKind kind) {
    return static_cast<std::size_t>(std::count_if(chart.warnings.begin(), chart.warnings.end(),
                                                  [&](const ChartWarning& w) { return w.kind == kind; }));
}

}  // namespace

TEST_CASE("three wedges make nine numbers, four make twelve, and other counts work") {
    // Facts of the trade.
    CHECK(make_distance_chart(wedges(3), {}, {}).cells.size() == 9);
    CHECK(make_distance_chart(wedges(4), {}, {}).cells.size() == 12);
    CHECK(make_distance_chart(wedges(1), {}, {}).cells.size() == 3);
    CHECK(make_distance_chart({}, {}, {}).cells.empty());
    CHECK(make_distance_chart(wedges(4), {}, {}).warnings.empty());
}

TEST_CASE("a chart in order has no warnings") {
    using enum SwingLength;
    std::vector<ChartShot> shots;
    add(shots, 0, half, {39, 40, 41, 40, 40});
    add(shots, 0, full, {69, 70, 71, 70, 70});
    add(shots, 1, half, {49, 50, 51, 50, 50});
    add(shots, 1, three_quarter, {59, 60, 61, 60, 60});
    add(shots, 1, full, {79, 80, 81, 80, 80});
    const DistanceChart chart = make_distance_chart(wedges(2), shots, on_day(20010));
    CHECK(chart.warnings.empty());
    CHECK(*chart.cells[0].mean_m == doctest::Approx(40 * yard));
    CHECK_FALSE(chart.cells[1].mean_m.has_value());
    CHECK(chart.cell_name(4) == "56 three-quarter");
    CHECK(chart.usable_cells() == std::vector<std::size_t>{0, 3, 4, 2, 5});
}

TEST_CASE("each thing that does not fit together is told once, with its numbers") {
    using enum SwingLength;
    std::vector<ChartShot> shots;
    add(shots, 0, half, {50, 51, 49, 50, 50});
    add(shots, 0, full, {45, 46, 44, 45, 45});  // a longer swing that is not longer
    add(shots, 1, half, {48, 49, 47, 48, 48});  // less loft, not longer than 60 half
    add(shots, 1, full, {90, 91, 89, 90, 90}, 19000);
    const DistanceChart chart = make_distance_chart(wedges(2), shots, on_day(20010));
    CHECK(count(chart, WarningKind::longer_swing_not_longer) == 1);
    CHECK(count(chart, WarningKind::lower_loft_not_longer) == 1);
    CHECK(count(chart, WarningKind::wide_gap) == 1);
    CHECK(count(chart, WarningKind::old) == 1);
    CHECK(count(chart, WarningKind::overlap) == 0);
    for (const ChartWarning& warning : chart.warnings) {
        const std::string words = warning_words(chart, warning, DistanceUnit::yards);
        CAPTURE(words);
        if (warning.kind == WarningKind::wide_gap)
            CHECK(words == "between 60 half and 56 full there is a gap of 40 yd");
        if (warning.kind == WarningKind::old) CHECK(words == "the newest shot with 56 full is 1010 days old");
        if (warning.kind == WarningKind::longer_swing_not_longer) {
            CHECK(words ==
                  "60 full is a longer swing than 60 half but does not carry further (difference −5 ± 1 yd)");
        }
    }
}

TEST_CASE("cells overlap when Welch's interval of their difference holds nought") {
    // Two invented samples, worked by scipy 1.10.1, stats.ttest_ind(equal_var=False) and stats.t:
    // {60,62,64,66,68} and {63,66,69,72,75}: difference 5, t = 1.96116, 6.96907 degrees of freedom, p =
    // 0.09085, half width 6.034060.
    using enum SwingLength;
    std::vector<ChartShot> shots;
    add(shots, 0, half, {60, 62, 64, 66, 68});
    add(shots, 0, full, {63, 66, 69, 72, 75});
    DistanceChart chart = make_distance_chart(wedges(1), shots, on_day(20000));
    REQUIRE(count(chart, WarningKind::overlap) == 1);
    CHECK(chart.warnings[0].difference_m == doctest::Approx(5 * yard));
    CHECK(std::abs(*chart.warnings[0].difference_half_width_m / yard - 6.034060) < 1e-5);
    // Wider apart they are two numbers.
    shots.clear();
    add(shots, 0, half, {60, 62, 64, 66, 68});
    add(shots, 0, full, {73, 76, 79, 82, 85});
    chart = make_distance_chart(wedges(1), shots, on_day(20000));
    CHECK(count(chart, WarningKind::overlap) == 0);
}

TEST_CASE("a wedge out of the bag has its numbers but no say") {
    using enum SwingLength;
    std::vector<ChartWedge> bag = wedges(2);
    bag[1].bag = Bag::out;
    std::vector<ChartShot> shots;
    add(shots, 0, half, {50, 51, 49});
    add(shots, 1, half, {20, 21, 19}, 10);
    const DistanceChart chart = make_distance_chart(bag, shots, on_day(20000));
    CHECK(chart.cells[3].mean_m.has_value());
    CHECK(chart.warnings.empty());
    CHECK(chart.usable_cells() == std::vector<std::size_t>{0});
}

TEST_CASE("five shots make a number; fewer are told as shots, on no card") {
    std::vector<ChartShot> shots;
    add(shots, 0, SwingLength::half, {40, 41});
    add(shots, 0, SwingLength::full, {82, 85, 84, 83, 61});
    add(shots, 1, SwingLength::full, {95, 96, 94, 95, 97, 96});
    for (std::size_t topped = 0; topped < 4; ++topped) shots[7 + topped].carry.coach = CoachSays::set_aside;
    const DistanceChart chart = make_distance_chart(wedges(2), shots, {});
    const DistanceCell& half = chart.cells[0];
    CHECK_FALSE(half.is_number());
    CHECK(known_words(half, DistanceUnit::yards) == "2 of 5 shots");
    CHECK(known_words(chart.cells[1], DistanceUnit::yards) == "no shot yet");
    // Of five hit, the one that does not belong is set aside: the rest are averaged, and that is the number.
    CHECK(chart.cells[2].is_number());
    CHECK(known_words(chart.cells[2], DistanceUnit::yards).starts_with("84 ± "));
    // Of six, four were topped: two that count are no number.
    CHECK(known_words(chart.cells[5], DistanceUnit::yards) == "2 of 5 shots");
    CHECK(chart.numbers() == std::vector<std::size_t>{2});
    CHECK(chart.usable_cells().size() == 3);
    for (const ClubChoice& choice : distance_card(chart, 5.0 * yard, 5.0 * yard)) {
        REQUIRE(choice.options.size() == 1);
        CHECK(choice.options.front().cell == 2);
    }
}

TEST_CASE("an interval that is wider than its shots is explained, any other is not") {
    std::vector<ChartShot> shots;
    add(shots, 0, SwingLength::half, {40, 41, 42, 41, 40});
    add(shots, 0, SwingLength::full, {82, 85, 84, 83, 61});
    const DistanceChart chart = make_distance_chart(wedges(1), shots, {});
    CHECK(wide_interval_words(chart, 0, 0.95, DistanceUnit::yards).empty());
    const std::string words = wide_interval_words(chart, 2, 0.95, DistanceUnit::yards);
    INFO(words);
    CHECK(words.find("60 full: ± 6 yd, though the 4 shots that count lie closer together (SD 1.3 yd)") == 0);
    CHECK(words.find("would make it ± 2 yd") != std::string::npos);
}

TEST_CASE("a carry beyond any wedge's reach is told, with the limit") {
    CHECK(beyond_reach_words(199.0 * yard, DistanceUnit::yards).empty());
    CHECK(beyond_reach_words(400.0 * yard, DistanceUnit::yards) ==
          "400 yd is farther than any wedge carries (200 yd)");
    CHECK(beyond_reach_words(200.0, DistanceUnit::metres) ==
          "200 m is farther than any wedge carries (183 m)");
}
