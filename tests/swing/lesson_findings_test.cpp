// What to keep and what to change: the rules that every report follows.
#include "analysis/swing/lesson_findings.h"

#include <doctest/doctest.h>

#include <limits>

using namespace footing;

namespace {

/// Swings with this lowest share each, all else as it should be.
std::vector<RuledSwing> with_lowest(const std::vector<double>& shares) {
    std::vector<RuledSwing> swings;
    for (const double share : shares) {
        RuledSwing swing;
        swing.kind = SwingKind::shot;
        swing.address = ShareValue{0.75, 0.005, Verdict::inside};
        swing.impact = swing.finish = ShareValue{0.85, 0.005, Verdict::above};
        swing.lowest = ShareValue{share, 0.01, Verdict::below};
        swing.tempo_ratio = 2.0;
        swing.came_to_rest = true;
        swings.push_back(swing);
    }
    return swings;
}

std::vector<AskedChange> changes(const std::vector<RuledSwing>& swings) {
    return changes_of(lesson_findings(swings, usual_certainty));
}

}  // namespace

TEST_CASE("one shot of many surely onto the trail foot is something to change, one that may be is not") {
    std::vector<double> shares(40, 0.60);
    CHECK(changes(with_lowest(shares)).empty());
    CHECK(lesson_findings(with_lowest(shares), usual_certainty).lowest.ruling == Ruling::keep);
    shares[7] = 0.49;  // 49 ± 2 %
    CHECK(changes(with_lowest(shares)).empty());
    CHECK(lesson_findings(with_lowest(shares), usual_certainty).lowest.ruling == Ruling::open);
    shares[7] = 0.47;
    const LessonFindings found = lesson_findings(with_lowest(shares), usual_certainty);
    CHECK(changes_of(found) == std::vector{AskedChange::lowest});
    CHECK(found.lowest.surely_under == 1);
    CHECK(found.lowest.known == 40);
    CHECK(found.lowest.least->value == 0.47);
}

TEST_CASE("a share of no known uncertainty is surely under nothing") {
    std::vector<RuledSwing> swings = with_lowest({0.40, 0.40, 0.40});
    CHECK(changes(swings) == std::vector{AskedChange::lowest});
    for (RuledSwing& swing : swings) swing.lowest->u = std::numeric_limits<double>::infinity();
    CHECK(changes(swings).empty());
    CHECK(lesson_findings(swings, usual_certainty).lowest.ruling == Ruling::open);
}

TEST_CASE("what is not known is no fault, and two swings are too few for any rule") {
    std::vector<RuledSwing> swings = with_lowest({0.3, 0.3});
    CHECK(changes(swings).empty());
    CHECK_FALSE(lesson_findings(swings, usual_certainty).tell_enough());
    swings = with_lowest({0.6, 0.6, 0.6});
    for (RuledSwing& swing : swings) swing.came_to_rest.reset(), swing.finish.reset(), swing.lowest.reset();
    CHECK(changes(swings).empty());
    CHECK(lesson_findings(swings, usual_certainty).rest.ruling == Ruling::too_few);
}

TEST_CASE("each lesson is held against the band of its swings") {
    std::vector<RuledSwing> swings = with_lowest({0.6, 0.6, 0.6});
    swings[0].band = {0.86, 0.95};  // 85 ± 1 % does not reach it
    const LessonFindings found = lesson_findings(swings, usual_certainty);
    CHECK(found.impact.arrived == 2);
    CHECK_FALSE(found.one_band);
    CHECK(found.impact.ruling == Ruling::keep);  // in two of three
    CHECK(found.finish.ruling == Ruling::open);  // all are asked for
}
