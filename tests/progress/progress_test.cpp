#include "analysis/progress/progress.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace footing;

namespace {

std::vector<ProgressPoint> points(const std::vector<double>& values) {
    std::vector<ProgressPoint> all;
    for (const double value : values) all.push_back({all.size(), 10, value});
    return all;
}

}  // namespace

TEST_CASE("only a change beyond the detectable one is called real") {
    // Differences 1 -1 1 1 -1 1: typical error 1/sqrt 2; 2 * 36 / 17 degrees of freedom; three lessons either
    // side.
    const auto series = progress_of_values(ProgressMeasure::tempo, points({3, 4, 3, 4, 5, 4, 5}));
    CHECK(*series.typical_error == doctest::Approx(std::sqrt(0.5)));
    CHECK(series.degrees_of_freedom == doctest::Approx(72.0 / 17.0));
    REQUIRE(series.change);
    CHECK(series.change->lessons_each == 3);
    CHECK(series.change->first == doctest::Approx(10.0 / 3.0));
    CHECK(series.change->last == doctest::Approx(14.0 / 3.0));
    // scipy 1.10.1: stats.t.ppf(0.975, 72 / 17) 2.7166584; times sqrt(0.5) sqrt(2/3).
    CHECK(series.change->detectable == doctest::Approx(2.7166584 * std::sqrt(1.0 / 3.0)).epsilon(1e-5));
    CHECK(series.change->verdict == ProgressVerdict::noise);
    const auto steep = progress_of_values(ProgressMeasure::tempo, points({3, 3.4, 3, 3.4, 5, 5.4, 5}));
    CHECK(steep.change->verdict == ProgressVerdict::real);
    const std::vector<std::string> dates(7, "2026-05-14");
    CHECK(progress_words(series, dates).find("no change") != std::string::npos);
    CHECK(progress_words(steep, dates).find("a real change") != std::string::npos);
}

TEST_CASE("too few lessons are silence, a long row gets a control chart") {
    CHECK_FALSE(progress_of_values(ProgressMeasure::tempo, points({3, 4, 5})).change.has_value());
    CHECK(progress_words(progress_of_values(ProgressMeasure::tempo, points({3})), {}).find("known in one lesson, and 6 are needed") !=
          std::string::npos);
    std::vector<double> nine{3, 3.1, 2.9, 3, 3.1, 3, 2.9, 3.1, 3};
    CHECK_FALSE(progress_of_values(ProgressMeasure::tempo, points(nine)).chart.has_value());
    std::vector<double> stepped = nine;
    for (int i = 0; i < 12; ++i) stepped.push_back(3.6 + 0.1 * (i % 2));
    const auto series = progress_of_values(ProgressMeasure::tempo, points(stepped));
    REQUIRE(series.chart);
    CHECK(series.chart->average.size() == stepped.size() - baseline);
    REQUIRE(series.first_beyond());
    CHECK(*series.first_beyond() >= 9);
    CHECK(*series.first_beyond() <= 13);
}

TEST_CASE(
    "lessons that are all alike are called changed, or beyond the limits, in about 5 of 100 cases or fewer") {
    std::mt19937 random(5);
    std::normal_distribution<double> one(0.0, 1.0);
    for (const std::size_t lessons : {6, 8, 12, 30}) {
        int changed = 0;
        int beyond = 0;
        constexpr int students = 4000;
        for (int s = 0; s < students; ++s) {
            std::vector<double> values(lessons);
            for (double& value : values) value = 3.0 + 0.2 * one(random);
            const auto series = progress_of_values(ProgressMeasure::tempo, points(values));
            changed += series.change->verdict == ProgressVerdict::real;
            beyond += series.first_beyond().has_value();
        }
        MESSAGE(lessons, " lessons: changed ", 100.0 * changed / students, " %, beyond ",
                100.0 * beyond / students, " %");
        CHECK(changed < 0.07 * students);
        CHECK(changed > 0.02 * students);
        CHECK(static_cast<double>(beyond) / students < 0.05);
    }
}

TEST_CASE("values of a lesson: means over its shots, spread within its cells") {
    std::vector<ProgressShot> shots;
    for (std::size_t lesson = 0; lesson < 6; ++lesson) {
        for (int i = 0; i < 3; ++i) {
            ProgressShot shot;
            shot.lesson = lesson;
            if (lesson != 1 || i > 0) shot.address_share = 0.70 + 0.01 * i;  // two in the second lesson
            shot.cell = 0;
            shot.carry_m = 50.0 * (0.9 + 0.1 * i);
            shots.push_back(shot);
            shot.address_share.reset();
            shot.cell = 1;
            shot.carry_m = 80.0 * (0.9 + 0.1 * i);
            shots.push_back(shot);
        }
    }
    const auto all = progress_of_lessons(shots);
    REQUIRE(all[0].points.size() == 5);
    CHECK(all[0].points[0].value == doctest::Approx(0.71));
    CHECK(all[0].points[1].lesson == 2);
    CHECK(all[1].points.empty());
    // 0.9 1.0 1.1 of either carry: an SD of 0.1.
    REQUIRE(all[4].points.size() == 6);
    CHECK(all[4].points[0].shots == 6);
    CHECK(all[4].points[0].value == doctest::Approx(0.1));
    CHECK(progress_of_lessons({})[0].points.empty());
}
