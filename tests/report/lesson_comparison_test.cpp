#include "analysis/report/lesson_comparison.h"

#include <doctest/doctest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "analysis/report/lesson_table.h"
#include "analysis/report/more_numbers.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/svg_painter.h"
#include "tests/support/lesson_sample.h"

using namespace footing;
using nlohmann::json;

namespace {

/// Eight shots that differ a little, one of them odd on request.
LessonResult lesson_of_shots(double address_shift, bool with_odd) {
    std::vector<sample::SwingPlan> plans;
    for (int i = 0; i < 8; ++i) {
        sample::SwingPlan plan;
        const double wobble = 0.006 * std::sin(2.4 * i);
        plan.address = 0.74 + address_shift + wobble;
        plan.lowest = 0.64 + 0.008 * std::cos(1.9 * i);
        plan.takeaway_s += 0.02 * std::sin(1.3 * i);
        plans.push_back(plan);
    }
    if (with_odd) plans[5].lowest = 0.45;
    return sample::lesson_of(plans);
}

}  // namespace

TEST_CASE("the odd one out of a lesson is named, and drawn") {
    const LessonResult lesson = lesson_of_shots(0.0, true);
    const ComparedLesson compared = compared_lesson(lesson, SetKind::counted);
    REQUIRE(compared.set.together);
    REQUIRE(compared.set.curves.size() == 8);
    int odd = 0;
    for (const OddCurve& curve : compared.set.odd) {
        if (curve.p >= odd_below_p) continue;
        ++odd;
        CHECK(compared.set.curve_places[curve.curve] == 5);
    }
    CHECK(odd == 1);
    const std::string table = comparison_table({compared}, Pairing::lessons);
    CHECK(table.find("Swing 6 is the odd one out") != std::string::npos);
    const std::string svg =
        svg_of(set_figure(lesson, compared.set, 736.0, 440.0), Theme::print, SvgPlace::own_file);
    CHECK(svg.find("swing 6") != std::string::npos);
    CHECK(svg.find("turnaround") != std::string::npos);
    const auto quiet = compared_lesson(lesson_of_shots(0.0, false), SetKind::counted);
    CHECK(comparison_table({quiet}, Pairing::lessons).find("None of them is odd") != std::string::npos);
}

TEST_CASE("a change between lessons is real or noise") {
    const auto before = compared_lesson(lesson_of_shots(0.0, false), SetKind::counted);
    const auto after = compared_lesson(lesson_of_shots(0.04, false), SetKind::counted);
    const auto changes = lesson_changes({before, after});
    REQUIRE(changes.size() == 1);
    REQUIRE(changes[0].numbers[0]);
    CHECK(changes[0].numbers[0]->difference == doctest::Approx(0.04).epsilon(1e-6));
    CHECK(changes[0].numbers[0]->verdict == ChangeVerdict::real);
    REQUIRE(changes[0].numbers[1]);  // the lowest share did not change
    CHECK(changes[0].numbers[1]->verdict == ChangeVerdict::noise);
    CHECK(lesson_changes({before, after, before}).size() == 3);
    CHECK(lesson_changes({before}).empty());

    const json written = json::parse(comparison_json({before, after}, Pairing::lessons));
    CHECK(written["lessons"].size() == 2);
    CHECK(written["lessons"][0]["numbers"]["address_share"]["n"] == 8);
    CHECK(written["lessons"][0]["curve"]["mean"].size() ==
          written["lessons"][0]["curve"]["from_impact_s"].size());
    CHECK(written["changes"][0]["numbers"]["address_share"]["verdict"] == "real");
    CHECK(written["icc"].contains("address_share"));
}

TEST_CASE("the same swings seen twice agree within limits; other counts cannot be paired") {
    const auto one = compared_lesson(lesson_of_shots(0.0, false), SetKind::all);
    const auto other = compared_lesson(lesson_of_shots(0.01, false), SetKind::all);
    const auto agreements = swing_agreements(one, other);
    REQUIRE(agreements[0]);
    CHECK(agreements[0]->bias == doctest::Approx(-0.01).epsilon(1e-6));
    CHECK(agreements[0]->sd < 1e-9);
    const auto fewer = compared_lesson(sample::lesson(), SetKind::shots);
    CHECK_FALSE(swing_agreements(one, fewer)[0].has_value());
    CHECK(comparison_table({one, fewer}, Pairing::same_swings).find("cannot be paired") != std::string::npos);
}

TEST_CASE("few or unknown swings: said, not guessed") {
    const auto none = compared_lesson(sample::lesson_without_swings(), SetKind::counted);
    CHECK(comparison_table({none}, Pairing::lessons).find("Too few swings") != std::string::npos);
    const LessonResult unknown_feet = sample::lesson_of_unknowns();
    const auto bare = compared_lesson(unknown_feet, SetKind::all);
    CHECK_FALSE(bare.set.together.has_value());
    CHECK(set_words(unknown_feet, bare.set).front().find("Too few") != std::string::npos);
    CHECK(json::parse(comparison_json({bare}, Pairing::lessons))["lessons"][0].contains("curve") == false);
}

TEST_CASE("where no share is known the table says why; where one is, it does not") {
    const std::string bare = lesson_table(sample::lesson_of_unknowns());
    CHECK(bare.find("One plate under both feet") != std::string::npos);
    CHECK(lesson_table(sample::lesson()).find("One plate under both feet") == std::string::npos);
}

TEST_CASE("the second table fits a terminal and leaves out what is not known") {
    LessonResult lesson = sample::lesson();
    lesson.swings[2].numbers.rhythm = RhythmMatch{2, 0.02, 0.06, -0.01, 0.05, 0.98, 93.0, 96.0};
    for (Swing& swing : lesson.swings) {
        if (swing.kind == SwingKind::shot) swing.numbers.practice_swings_before = 0;
    }
    lesson.swings[2].numbers.practice_swings_before = 2;
    lesson.swings[3].numbers.practice_swings_before = 1;  // of unknown tempo
    lesson.swings[2].numbers.cop_travel = CopTravel{0.31, 0.09, 0.03};
    const MoreNumbers numbers = more_numbers(lesson);
    for (const auto& row : numbers.rows) CHECK(row.size() == numbers.names.size());
    const std::string table = more_numbers_table(lesson);
    CHECK(table.find("93 %") != std::string::npos);
    CHECK(table.find("9.0 × 3.0") != std::string::npos);
    CHECK(table.find("toe lead") == std::string::npos);
    CHECK(table.find("4 shots had no practice swing before") != std::string::npos);
    CHECK(table.find("the rhythm of 1 shot is not compared") != std::string::npos);
    CHECK(more_numbers_table(sample::lesson_without_swings()).empty());
}

TEST_CASE("a finish fully on the lead foot is praised, whatever the band calls it") {
    const PlainWords words = plain_words(sample::lesson());
    const auto says = [](const std::vector<std::string>& sentences, const std::string& part) {
        return std::ranges::any_of(
            sentences, [&](const std::string& sentence) { return sentence.find(part) != std::string::npos; });
    };
    CHECK(says(words.keep, "The finish stood on the lead foot"));
    CHECK_FALSE(says(words.change, "finish"));
}

TEST_CASE("which kind of swings is compared is decided once for all lessons, and said") {
    const LessonResult six_shots = sample::lesson();
    LessonResult two_shots = sample::lesson();
    for (std::size_t i = 0; i < 6; ++i) two_shots.swings[i].kind = SwingKind::practice;
    LessonsToCompare mixed(SetKind::counted);
    mixed.add(six_shots);
    mixed.add(two_shots);
    for (const ComparedLesson& lesson : mixed.lessons()) {
        CHECK(lesson.set.kind == SetKind::all);
        CHECK(lesson.swing_indices.size() == 8);
    }
    CHECK(comparison_table(mixed.lessons(), Pairing::lessons).find("8 swings of any kind") !=
          std::string::npos);
    CHECK(json::parse(comparison_json(mixed.lessons(), Pairing::lessons))["kind"] == "all");
    LessonsToCompare alike(SetKind::counted);
    alike.add(six_shots);
    alike.add(six_shots);
    for (const ComparedLesson& lesson : alike.lessons()) CHECK(lesson.set.kind == SetKind::shots);
    CHECK(comparison_table(alike.lessons(), Pairing::lessons).find("6 shots taken together") !=
          std::string::npos);
}

TEST_CASE("a hand that finds clearly less than the other would is told with the swings it did find") {
    LessonResult lesson = sample::lesson();
    CHECK(lesson_table(lesson).find("--hand") == std::string::npos);
    lesson.swings_as_other_hand = 16;
    CHECK(lesson_table(lesson).find("read as left-handed it holds 16 swings") != std::string::npos);
    const PlainWords words = plain_words(lesson);
    CHECK(std::ranges::any_of(
        words.notes, [](const std::string& note) { return note.find("--hand left") != std::string::npos; }));
}
