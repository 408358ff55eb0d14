#include "viewer/panels/words.h"

#include <doctest/doctest.h>

#include "tests/support/lesson_sample.h"
#include "viewer/panels/screen_canvas.h"

using namespace footing;

TEST_CASE("a clock shows minutes, and hours where there are any") {
    CHECK(clock_words(0.0, 0) == "0:00");
    CHECK(clock_words(64.24) == "1:04.2");
    CHECK(clock_words(59.96) == "1:00.0");  // rounded before it is cut into minutes
    CHECK(clock_words(3723.4) == "1:02:03.4");
    CHECK(clock_words(-0.0, 0) == "0:00");
    CHECK(clock_words(9.999, 2) == "0:10.00");
}

TEST_CASE("speeds below one are told as fractions") {
    CHECK(speed_words(0.05) == "1/20 ×");
    CHECK(speed_words(0.25) == "1/4 ×");
    CHECK(speed_words(1.0) == "1 ×");
    CHECK(speed_words(2.0) == "2 ×");
}

TEST_CASE("a moment is told from impact") {
    const LessonResult lesson = sample::lesson();
    const Swing& swing = lesson.swings[2];
    const double impact_s = swing.events.impact->time_s;
    CHECK(moment_words(&swing, impact_s) == "at impact");
    CHECK(moment_words(&swing, impact_s - 0.25) == "0.250 s before impact");
    CHECK(moment_words(&swing, impact_s + 1.0) == "1.000 s after impact");
    CHECK(moment_words(nullptr, 64.25) == "1:04.25 from the start");
}

TEST_CASE("a momentary share is told by its distance from the band, at least one point") {
    const TargetBand band;
    CHECK(distance_words(0.75, band) == "in the band");
    CHECK(distance_words(0.61, band) == "9 points below the band");
    CHECK(distance_words(0.801, band) == "1 point above the band");
}

TEST_CASE("loss is told with its share of all frames") {
    LossCounters losses;
    losses.frames = 996;
    CHECK(loss_words(losses) == "nothing lost");
    losses.lost = 4;
    losses.damaged = 2;
    CHECK(loss_words(losses) == "4 of 1000 frames lost (0.4 %), 2 damaged");
}

TEST_CASE("control characters, line breaks and turning marks do not reach the screen") {
    CHECK(one_line("a\r\nb\tc") == "a b c");
    CHECK(one_line("x\xE2\x80\xAEy") == "x y");
    CHECK(one_line("\x01\x02") == "");
    CHECK(one_line("Zoë Ångström") == "Zoë Ångström");
}
