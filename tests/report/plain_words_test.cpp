#include <doctest/doctest.h>

#include <algorithm>

#include "analysis/report/plain_words.h"
#include "analysis/report/student_report.h"
#include "analysis/report/student_words.h"
#include "tests/support/lesson_sample.h"

using namespace footing;

namespace {

bool says(const std::vector<std::string>& sentences, const std::string& part) {
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](const std::string& sentence) { return sentence.find(part) != std::string::npos; });
}

/// `count` shots with the same plan.
LessonResult shots(std::size_t count, const sample::SwingPlan& plan) {
    return sample::lesson_of(std::vector<sample::SwingPlan>(count, plan));
}

}  // namespace

TEST_CASE("the sample lesson in plain words") {
    const PlainWords words = plain_words(sample::lesson());
    CHECK(says(words.keep, "At address the lead share was inside the band (70 to 80 %) in 4 of 6 shots."));
    CHECK(says(words.keep, "The rhythm was steady"));
    CHECK(says(words.keep, "The finish came to rest in 6 of 6 shots."));
    CHECK(says(words.change, "In 1 of 6 shots the lead share fell under 50 % (lowest 47 ± 1 %)"));
    CHECK(says(words.keep, "At impact the weight was on the lead foot, 70 % or more, in 6 of 6 shots."));
    const auto head = headline(sample::lesson());
    REQUIRE(head);
    CHECK(head->inside == 4);
    CHECK(head->counted == 6);
    CHECK(head->of_what == "shots set up inside the band, 70 to 80 %; 1 too close to call");
    sample::SwingPlan edge;
    edge.address = 0.80;
    CHECK(headline(shots(3, edge))->of_what ==
          "shots set up inside the band, 70 to 80 %; 3 too close to call");
}

TEST_CASE("one shot is one shot, not one shots") {
    CHECK(headline(shots(1, {}))->of_what == "shot set up inside the band, 70 to 80 %");
    StudentReport report;
    report.lessons.resize(1);
    ReportedSwing shot;
    shot.kind = SwingKind::shot;
    shot.address = ShareValue{0.75, 0.005, Verdict::inside};
    report.swings = {shot};
    CHECK(says(set_up_thing(report).sentences, "1 of 1 shot inside."));
    report.swings[0].kind = SwingKind::practice;
    CHECK(says(set_up_thing(report).sentences, "1 of 1 swing inside."));
}

TEST_CASE("two swings are too few for advice") {
    const PlainWords words = plain_words(shots(2, {}));
    CHECK(words.keep.empty());
    CHECK(words.change.empty());
    CHECK(says(words.notes, "Too few swings to advise on: 2 swings"));
    CHECK(says(plain_words(sample::lesson_without_swings()).notes, "No swing was found"));
    CHECK_FALSE(headline(sample::lesson_without_swings()));
}

TEST_CASE("addresses of which none is surely outside the band are not said to vary") {
    sample::SwingPlan edge;
    edge.address = 0.70;
    std::vector<sample::SwingPlan> plans(3, sample::SwingPlan{});
    plans.insert(plans.end(), 3, edge);
    const PlainWords words = plain_words(sample::lesson_of(plans));
    CHECK(says(words.notes,
               "surely outside the band in none of 6 shots: 3 inside the band, 3 too close to call"));
    CHECK_FALSE(says(words.notes, "varied"));
    plans[0].address = plans[1].address = 0.60;
    CHECK(says(plain_words(sample::lesson_of(plans)).notes, "varied"));
}

TEST_CASE("each rule speaks on its side of its limit") {
    sample::SwingPlan back;
    back.address = 0.60;
    back.impact = 0.66;
    const PlainWords low = plain_words(shots(3, back));
    CHECK(says(low.change, "At address the lead share was below the band (70 to 80 %) in 3 of 3 shots"));
    CHECK(says(low.change, "At impact the lead share was below 70 % in 3 of 3 shots"));
    CHECK(says(low.keep, "The weight stayed on the lead side in 3 of 3 shots: lowest lead share 62 ± 1 %"));

    sample::SwingPlan forward;
    forward.address = 0.88;
    forward.impact = 0.75;
    const PlainWords high = plain_words(shots(3, forward));
    CHECK(says(high.change, "At address the lead share was above the band"));
    CHECK(says(high.keep, "At impact the weight was on the lead foot"));

    sample::SwingPlan edge;
    edge.address = 0.70;
    CHECK(says(plain_words(shots(3, edge)).notes,
               "At address the lead share was too close to the edge of the band"));

    // About the upper edge it is open whether it is in the band; over the lower edge it surely is.
    sample::SwingPlan upper;
    upper.impact = 0.80;
    upper.finish = 0.80;
    const LessonResult upper_lesson = shots(3, upper);
    REQUIRE(upper_lesson.swings[0].lead_share.impact->verdict == Verdict::too_close);
    REQUIRE(upper_lesson.swings[0].lead_share.finish->verdict == Verdict::too_close);
    const PlainWords sure = plain_words(upper_lesson);
    CHECK(says(sure.keep, "At impact the weight was on the lead foot, 70 % or more, in 3 of 3 shots"));
    CHECK(says(sure.keep, "The finish stood on the lead foot, 70 % or more, in 3 of 3 shots"));

    sample::SwingPlan even;
    even.lowest = 0.50;  // may be under 50 %, may be not: nothing can be said
    const PlainWords unsure = plain_words(shots(3, even));
    CHECK_FALSE(says(unsure.keep, "stayed on the lead side"));
    CHECK_FALSE(says(unsure.change, "under 50 %"));
}

TEST_CASE("tempo: steady up to 10 % of spread, uneven over 20 %") {
    LessonResult lesson = shots(3, {});
    const auto with_ratios = [&](double a, double b, double c) {
        lesson.swings[0].tempo->ratio = a;
        lesson.swings[1].tempo->ratio = b;
        lesson.swings[2].tempo->ratio = c;
        return plain_words(lesson);
    };
    CHECK(says(with_ratios(2.0, 2.18, 1.82).keep, "a spread of 9 %"));
    CHECK(says(with_ratios(2.0, 2.3, 1.7).notes, "a spread of 15 %"));
    CHECK(says(with_ratios(2.0, 2.5, 1.5).change, "a spread of 25 %"));
}

TEST_CASE("a finish that never came to rest, and frames lost in a swing, are told") {
    LessonResult lesson = sample::lesson_with_loss();
    CHECK(says(plain_words(lesson).notes, "Frames were lost during swing 3:"));
    for (std::size_t i = 0; i < 6; ++i) lesson.swings[i].events.finish.reset();
    CHECK(says(plain_words(lesson).change, "The finish came to rest in 2 of 6 shots only"));
}

TEST_CASE("practice swings count only where there are fewer than three shots") {
    CHECK(counted_swings(sample::lesson()).size() == 6);
    LessonResult lesson = sample::lesson();
    for (std::size_t i = 0; i < 4; ++i) lesson.swings[2 + i].kind = SwingKind::practice;
    CHECK(counted_swings(lesson).size() == 8);
}

TEST_CASE("what the recording's report asks to change, the student's report asks too") {
    // 3 of 40 shots onto the trail foot, finishes that never came to rest, all else as it should be.
    sample::SwingPlan good;
    std::vector<sample::SwingPlan> plans(40, good);
    for (const std::size_t place : {5, 20, 33}) plans[place].lowest = 0.42;
    StudentReport student;
    student.lessons.push_back({1, "2026-05-14", "", "", {}, ""});
    const LessonResult lesson = sample::lesson_of(plans);
    for (const Swing& swing : lesson.swings) {
        ReportedSwing one;
        one.number = static_cast<std::int64_t>(swing.index);
        one.kind = swing.kind;
        one.address = swing.lead_share.address;
        one.impact = swing.lead_share.impact;
        one.lowest = swing.lead_share.lowest;
        one.finish = swing.lead_share.finish;
        one.came_to_rest = swing.events.finish.has_value();
        one.tempo = swing.tempo;
        student.swings.push_back(one);
    }
    const PlainWords words = plain_words(lesson);
    REQUIRE(words.change.size() == 1);
    CHECK(says(words.change, "In 3 of 40 shots the lead share fell under 50 % (lowest 42 ± 1 %)"));
    const auto asked = changes_asked(student);
    REQUIRE(asked);
    REQUIRE(asked->size() == words.change.size());
    CHECK(asked->front().rule == PracticeRule::onto_trail_foot);
    CHECK(asked->front().words ==
          "On the way: weight moved onto your right foot in 3 of 40 shots (at worst 42 ± 1 % was on the "
          "left); keep more than half of it on your left foot.");
    // Of several lessons the newest, and which one that is.
    student.lessons.push_back({2, "2026-05-21", "", "", {}, "without plates"});
    CHECK(changes_asked(student)->front().words.find("in 3 of 40 shots of the lesson of 2026-05-14 (") !=
          std::string::npos);
    student.swings.resize(2);
    CHECK_FALSE(changes_asked(student));
}

TEST_CASE("swings in which frames were lost are named by their ranges") {
    LessonResult lesson = sample::lesson();
    const auto lose_in = [&](const std::vector<std::size_t>& places) {
        lesson.facts.gaps.clear();
        for (const std::size_t place : places)
            lesson.facts.gaps.push_back(
                {lesson.swings[place].from_s + 1.0, lesson.swings[place].from_s + 1.1});
        return plain_words(lesson).notes;
    };
    CHECK(says(lose_in({0, 1, 2, 3, 4, 5, 6, 7}), "Frames were lost during swings 1 to 8:"));
    CHECK(says(lose_in({0, 1, 4, 6, 7}), "Frames were lost during swings 1, 2, 5, 7, 8:"));
    CHECK(says(lose_in({2}), "Frames were lost during swing 3:"));
}
