#include "analysis/report/drawn_sample.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace footing;

namespace {

/// Both feet at 1 kHz; the lead foot bears `share` of 700 N.
LessonResult lesson_with(double (*share)(double)) {
    LessonResult lesson;
    lesson.body_weight_n = 700.0;
    lesson.trace.rate_hz = 1000.0;
    for (int i = 0; i < 2000; ++i) {
        const double time_s = i / 1000.0;
        lesson.trace.time_s.push_back(time_s);
        lesson.trace.left_n.push_back(700.0 * share(time_s));
        lesson.trace.right_n.push_back(700.0 * (1.0 - share(time_s)));
        lesson.trace.cop_x_m.push_back(share(time_s));
        lesson.trace.cop_y_m.push_back(-share(time_s));
    }
    return lesson;
}

}  // namespace

TEST_CASE("a drawn share has no lag: a steady shift is drawn where it is") {
    const LessonResult lesson = lesson_with([](double t) { return 0.6 + 0.1 * t; });
    for (const std::size_t sample : {0U, 1U, 500U, 1234U, 1999U}) {
        CHECK(drawn_share(lesson, sample) == doctest::Approx(0.6 + 0.1e-3 * static_cast<double>(sample)));
        CHECK(drawn_cop(lesson.trace, sample)->y_m ==
              doctest::Approx(-0.6 - 0.1e-3 * static_cast<double>(sample)));
    }
}

TEST_CASE(
    "a moving average of 25 samples passes sin(25 x)/(25 sin x) of a wave (Oppenheim & Schafer, from "
    "memory)") {
    const LessonResult lesson =
        lesson_with([](double t) { return 0.7 + 0.1 * std::cos(2 * M_PI * 30 * (t - 1.0)); });
    const double x = M_PI * 30 / 1000.0;
    CHECK(drawn_share(lesson, 1000) == doctest::Approx(0.7 + 0.1 * std::sin(25 * x) / (25 * std::sin(x))));
}

TEST_CASE("nothing is drawn where nobody stands or nothing is known") {
    LessonResult lesson = lesson_with([](double) { return 0.7; });
    for (std::size_t i = 900; i < 1100; ++i) lesson.trace.left_n[i] = lesson.trace.right_n[i] = 1.0;
    lesson.trace.cop_x_m[500] = unknown;
    CHECK_FALSE(known(drawn_share(lesson, 1000)));
    CHECK_FALSE(known(drawn_share(lesson, 5000)));
    CHECK_FALSE(drawn_cop(lesson.trace, 500).has_value());
    CHECK(known(drawn_share(lesson, 500)));
}
