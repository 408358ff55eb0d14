#include "analysis/report/report_words.h"

#include <doctest/doctest.h>

#include <vector>

using namespace footing;

TEST_CASE("a report says how the impacts are known, and what strikes taught about the others") {
    Swing struck;
    struck.kind = SwingKind::shot;
    struck.events.impact = Event{2.0, 0.001, EventSource::measured};
    Swing practice;
    practice.events.impact = Event{9.0, 0.06, EventSource::estimated};
    CHECK(impact_words({practice, practice}) ==
          "impact was measured or marked in 0 swings and estimated from the load in 2 swings");
    CHECK(impact_words({struck, practice}) ==
          "impact was measured or marked in 1 swing and estimated from the load in 1 swing");
    struck.strike_after_witnesses_s = StrikeWitnesses{0.05, 0.04, std::nullopt, std::nullopt};
    CHECK(impact_words({struck, practice}) ==
          "impact was measured or marked in 1 swing and estimated from the load in 1 swing, as the strikes "
          "of 1 "
          "swing teach");
    CHECK(impact_words({struck}) ==
          "impact was measured or marked in 1 swing and estimated from the load in 0 swings");
}
