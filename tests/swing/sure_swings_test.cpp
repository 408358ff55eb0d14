// Which of a recording's sure swings a movement is likened to.
#include "analysis/swing/sure_swings.h"

#include <doctest/doctest.h>

#include <vector>

#include "analysis/swing/swing_likeness.h"

using namespace footing;

namespace {

constexpr double entries_hz = 100.0;

SwingCandidate candidate_at(double time_s, double weight = 5.0) {
    SwingCandidate candidate;
    candidate.middle = static_cast<std::size_t>(time_s * entries_hz);
    candidate.weight = weight;
    candidate.sure = true;
    candidate.portrait = SwingPortrait{};
    candidate.portrait->log_push = time_s;  // tells whose it is
    return candidate;
}

std::vector<double> told(const SwingCandidate& candidate, const std::vector<SwingCandidate>& sure,
                         const std::vector<SwingPortrait>& earlier = {}) {
    std::vector<const SwingCandidate*> places;
    for (const SwingCandidate& one : sure) places.push_back(&one);
    std::vector<double> whose;
    for (const SwingPortrait* portrait : portraits_near(candidate, entries_hz, places, earlier))
        whose.push_back(portrait->log_push);
    return whose;
}

}  // namespace

TEST_CASE("of movements within one and a half seconds the strongest stays") {
    const std::vector<SwingCandidate> candidates{candidate_at(10.0, 3.0), candidate_at(11.0, 6.0),
                                                 candidate_at(12.4, 5.0), candidate_at(14.0, 4.0)};
    const auto all = [](const SwingCandidate&) { return true; };
    CHECK(strongest_apart(candidates, entries_hz, all) == std::vector<std::size_t>{1, 3});
    const auto none = [](const SwingCandidate&) { return false; };
    CHECK(strongest_apart(candidates, entries_hz, none).empty());
}

TEST_CASE("the nearest in time come first, without the movement's own and what overlaps it") {
    const std::vector<SwingCandidate> sure{candidate_at(10.0), candidate_at(30.0), candidate_at(31.6),
                                           candidate_at(45.0), candidate_at(70.0)};
    CHECK(told(candidate_at(30.4), sure) == std::vector<double>{45.0, 10.0, 70.0});
    CHECK(told(candidate_at(30.0), sure) == std::vector<double>{31.6, 45.0, 10.0, 70.0});
    CHECK(told(candidate_at(5.0), {}).empty());
}

TEST_CASE("eight at most, and earlier swings only where the recording has fewer, the newest first") {
    std::vector<SwingCandidate> sure;
    for (int i = 0; i < 30; ++i) sure.push_back(candidate_at(10.0 * i));
    SwingPortrait old;
    old.log_push = -2.0;
    SwingPortrait newer;
    newer.log_push = -1.0;
    CHECK(told(candidate_at(152.0), sure, {old, newer}) ==
          std::vector<double>{150.0, 160.0, 140.0, 170.0, 130.0, 180.0, 120.0, 190.0});
    CHECK(told(candidate_at(5.0), {candidate_at(15.0)}, {old, newer}) ==
          std::vector<double>{15.0, -1.0, -2.0});
}
