#include "analysis/swing/aligned_swings.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "analysis/pressure/trace_piece.h"
#include "tests/support/lesson_sample.h"

using namespace footing;

namespace {

std::vector<SwingToAlign> all_of(const LessonResult& lesson, std::size_t group = 0) {
    std::vector<SwingToAlign> swings;
    for (const Swing& swing : lesson.swings)
        swings.push_back({&lesson.trace, &swing, lesson.facts.hand, group});
    return swings;
}

/// The point of the axis nearest to so many seconds from the event.
std::size_t point_at(const AlignedSwings& aligned, double time_s) {
    std::size_t nearest = 0;
    for (std::size_t i = 0; i < aligned.time_s.size(); ++i) {
        if (std::abs(aligned.time_s[i] - time_s) < std::abs(aligned.time_s[nearest] - time_s)) nearest = i;
    }
    return nearest;
}

}  // namespace

TEST_CASE("swings aligned on an event have the share there that each of them has") {
    const LessonResult lesson = sample::lesson();
    const AlignedSwings aligned = align_swings(all_of(lesson), &SwingEvents::impact);
    REQUIRE(aligned.curves.size() == lesson.swings.size());
    CHECK(aligned.left_out == 0);
    CHECK(aligned.time_s.front() < -0.9);
    CHECK(aligned.time_s.back() > 0.8);
    const std::size_t zero = point_at(aligned, 0.0);
    for (std::size_t i = 0; i < aligned.curves.size(); ++i) {
        // The samples' plan, told by the generator, not by this code; the filter rounds what is steep.
        const double planned =
            sample::planned_share(sample::eight_swings()[aligned.given[i]], aligned.time_s[zero]);
        CHECK(aligned.curves[i][zero] == doctest::Approx(planned).epsilon(0.03));
    }
    CHECK(*aligned.event_s[4] == doctest::Approx(0.0));
    CHECK(*aligned.event_s[1] < -0.9);  // takeaway
}

TEST_CASE("the mean of a group is the mean of its curves, and groups do not mix") {
    const LessonResult lesson = sample::lesson();
    std::vector<SwingToAlign> swings = all_of(lesson);
    for (std::size_t i = 0; i < 3; ++i) swings[i].group = 1;
    const AlignedSwings aligned = align_swings(swings, &SwingEvents::takeaway);
    REQUIRE(aligned.groups[0].together);
    REQUIRE(aligned.groups[1].together);
    const std::size_t at = aligned.time_s.size() / 2;
    double sum = 0.0;
    for (const std::size_t curve : aligned.groups[1].curves) sum += aligned.curves[curve][at];
    CHECK(aligned.groups[1].curves.size() == 3);
    CHECK(aligned.groups[1].together->mean[at] == doctest::Approx(sum / 3.0));
    CHECK(aligned.groups[0].odd.size() == 5);
    CHECK(aligned.groups[1].odd.empty());  // too few to judge
}

TEST_CASE("a swing without the event, or without known shares, is left out and counted") {
    LessonResult lesson = sample::lesson();
    lesson.swings[0].events.impact.reset();
    CHECK(align_swings(all_of(lesson), &SwingEvents::impact).left_out == 1);
    for (Swing& swing : lesson.swings) swing.events.impact.reset();
    const AlignedSwings none = align_swings(all_of(lesson), &SwingEvents::impact);
    CHECK(none.curves.empty());
    CHECK(none.left_out == lesson.swings.size());
    CHECK(align_swings({}, &SwingEvents::impact).curves.empty());
}

TEST_CASE("a trace with holes between its swings gives the same curves as a whole one") {
    const LessonResult lesson = sample::lesson();
    LoadTrace pieces;
    for (const Swing& swing : lesson.swings)
        append_piece(pieces, trace_piece(lesson.trace, 0.0, swing.from_s - 0.25, swing.to_s + 0.25));
    REQUIRE(pieces.size() < lesson.trace.size());
    std::vector<SwingToAlign> swings = all_of(lesson);
    const AlignedSwings whole = align_swings(swings, &SwingEvents::impact);
    for (SwingToAlign& swing : swings) swing.trace = &pieces;
    const AlignedSwings apart = align_swings(swings, &SwingEvents::impact);
    REQUIRE(apart.curves.size() == whole.curves.size());
    for (std::size_t i = 0; i < whole.curves.size(); ++i) {
        for (std::size_t k = 0; k < whole.time_s.size(); k += 20)
            CHECK(apart.curves[i][k] == doctest::Approx(whole.curves[i][k]).epsilon(0.002));
    }
}
