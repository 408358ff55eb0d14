// What a lesson asks to change, in words.
#include "analysis/progress/change_words.h"

#include <doctest/doctest.h>

#include <string>

using namespace footing;

TEST_CASE("whose swings the rhythm is of stands with their number") {
    LessonFindings findings;
    findings.swings = 3;
    findings.tempo = {};
    findings.tempo.known = 3;
    findings.tempo.mean = 2.9;
    findings.tempo.least = 2.2;
    findings.tempo.most = 3.6;
    findings.tempo.spread = 0.22;
    const std::string words = change_words(findings, AskedChange::tempo, " of the newest lesson");
    CHECK(words.find("in 3 of 3 swings of the newest lesson, a spread of 22 %.") != std::string::npos);
}
