#include "analysis/report/report_words.h"

#include <doctest/doctest.h>

#include <string>
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

TEST_CASE("a trigger that contradicts the load is told among the facts") {
    const auto told = [](double later_s, std::size_t strikes) {
        LessonResult lesson;
        Swing swing;
        swing.events.impact = Event{2.0, 0.001, EventSource::measured};
        swing.strike_after_witnesses_s = StrikeWitnesses{later_s, later_s, later_s, later_s};
        lesson.swings.assign(strikes, swing);
        for (const Fact& fact : lesson_facts(lesson)) {
            if (fact.name == "Trigger") return fact.value;
        }
        return std::string();
    };
    CHECK(told(0.24, 3) ==
          "comes 0.24 s later than the load tells strikes: see that it answers to the strike, and at once");
    CHECK(told(-0.24, 2).substr(0, 19) == "comes 0.24 s sooner");
    CHECK(told(0.08, 3).empty());  // golfers differ by as much
    CHECK(told(0.24, 1).empty());  // a single edge may be a stray one
}
