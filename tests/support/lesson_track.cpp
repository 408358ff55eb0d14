#include "tests/support/lesson_track.h"

#include <algorithm>
#include <numbers>

namespace footing::testing {

namespace {
constexpr double pi = std::numbers::pi;
}  // namespace

void LessonTrack::piece(double seconds, const Curve& share_of, const Curve& load_of, const Curve& forward_of,
                        bool standing) {
    const std::size_t count = static_cast<std::size_t>(std::max(1.0, std::round(seconds * rate_hz)));
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        share.push_back(share_of(t));
        load_bw.push_back(std::max(0.0, load_of(t)));
        forward_m.push_back(forward_of(t));
        stands.push_back(standing);
        trigger.push_back(0);
    }
    level = share.back();
}

void LessonTrack::empty(double seconds) {
    piece(
        seconds, [](double) { return 0.5; }, [](double) { return 0.0; }, [](double) { return 0.0; }, false);
}

void LessonTrack::stand(double seconds) {
    const double here = level;
    piece(
        seconds, [=](double) { return here; }, [](double) { return 1.0; }, [](double) { return 0.0; });
}

void LessonTrack::settle_to(double goal, double seconds) {
    const double from = level;
    piece(
        seconds, [=](double t) { return from + (goal - from) * minimum_jerk(t / seconds); },
        [](double) { return 1.0; }, [](double) { return 0.0; });
}

void LessonTrack::step_on(Draws& draw) {
    const double first = draw(0.25, 0.5);
    const double second = draw(0.4, 0.8);
    const double first_foot = draw.chance(0.5) ? 1.0 : 0.0;
    const double overshoot = draw(0.02, 0.15);
    piece(
        first, [=](double) { return first_foot; },
        [=](double t) { return minimum_jerk(t / first) * (1.0 + overshoot * std::sin(pi * t / first)); },
        [](double) { return 0.0; }, false);
    const double goal = draw(0.45, 0.55);
    piece(
        second, [=](double t) { return first_foot + (goal - first_foot) * minimum_jerk(t / second); },
        [=](double t) { return 1.0 + 0.06 * std::sin(2.0 * pi * t / second); }, [](double) { return 0.0; });
}

void LessonTrack::step_off(Draws& draw) {
    const double first = draw(0.3, 0.6);
    const double from = level;
    const double last_foot = draw.chance(0.5) ? 1.0 : 0.0;
    piece(
        first, [=](double t) { return from + (last_foot - from) * minimum_jerk(t / first); },
        [=](double t) { return 1.0 + 0.05 * std::sin(2.0 * pi * t / first); }, [](double) { return 0.0; });
    const double second = draw(0.2, 0.4);
    piece(
        second, [=](double) { return last_foot; }, [=](double t) { return 1.0 - minimum_jerk(t / second); },
        [](double) { return 0.0; }, false);
}

}  // namespace footing::testing
