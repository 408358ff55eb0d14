#include "tests/support/pastimes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace footing::testing {

namespace {

constexpr double pi = std::numbers::pi;

double either(double size, Draws& draw) {
    return size * (draw.chance(0.5) ? -1.0 : 1.0);
}

void rock(LessonTrack& track, Draws& draw) {
    const double rate = draw(0.25, 1.0);
    const int cycles = static_cast<int>(draw(1.0, 5.0));
    const double size = draw(0.03, 0.25) * (draw.chance(0.5) ? -1.0 : 1.0);
    const double seconds = cycles / rate;
    const double level = track.level;
    track.piece(
        seconds, [=](double t) { return level + size * std::sin(2.0 * pi * rate * t); },
        [=](double t) { return 1.0 + 0.015 * std::sin(4.0 * pi * rate * t); },
        [=](double t) { return 0.01 * std::sin(2.0 * pi * rate * t); });
    track.level = level;
}

void bend(LessonTrack& track, Draws& draw) {
    const double down = draw(0.6, 1.1);
    const double stay = draw(0.3, 1.2);
    const double up = draw(0.6, 1.1);
    const double reach = draw(0.02, 0.07);
    const double lean = draw(-0.12, 0.12);
    const double dip = draw(0.03, 0.14);
    const double level = track.level;
    const auto part = [=](double t) {
        if (t < down) return minimum_jerk(t / down);
        if (t < down + stay) return 1.0;
        return 1.0 - minimum_jerk((t - down - stay) / up);
    };
    track.piece(
        down + stay + up, [=](double t) { return level + lean * part(t); },
        [=](double t) {
            if (t < down) return 1.0 - dip * std::sin(2.0 * pi * t / down);
            if (t < down + stay) return 1.0;
            return 1.0 + dip * std::sin(2.0 * pi * (t - down - stay) / up);
        },
        [=](double t) { return reach * part(t); });
    track.level = level;
}

void lift_a_foot(LessonTrack& track, Draws& draw) {
    const double shift = draw(0.25, 0.6);
    const double hold = draw(0.15, 1.0);
    const double goal = draw.chance(0.5) ? 1.0 : 0.0;
    const double before = draw(0.0, 0.06) * (goal > 0.5 ? -1.0 : 1.0);  // pushes off from the other foot
    const double level = track.level;
    const double ready = draw(0.15, 0.35);
    const auto still = [](double) { return 0.0; };
    track.piece(
        ready, [=](double t) { return level + before * minimum_jerk(t / ready); }, [](double) { return 1.0; },
        still);
    const double from = level + before;
    track.piece(
        shift, [=](double t) { return from + (goal - from) * minimum_jerk(t / shift); },
        [=](double t) { return 1.0 + 0.04 * std::sin(2.0 * pi * t / shift); }, still);
    track.piece(
        hold, [=](double) { return goal; }, [](double) { return 1.0; }, still);
    const double end = draw(0.45, 0.6);
    track.piece(
        shift, [=](double t) { return goal + (end - goal) * minimum_jerk(t / shift); },
        [=](double t) { return 1.0 + 0.05 * std::sin(2.0 * pi * t / shift); }, still);
}

void walk_on_the_spot(LessonTrack& track, Draws& draw) {
    const int steps = static_cast<int>(draw(3.0, 9.0));
    const double each = draw(0.45, 0.7);
    bool lead = draw.chance(0.5);
    double from = track.level;
    for (int i = 0; i < steps; ++i) {
        const double goal = i + 1 == steps ? 0.52 : (lead ? 1.0 : 0.0);
        track.piece(
            each, [=](double t) { return from + (goal - from) * minimum_jerk(1.6 * t / each); },
            [=](double t) { return 1.0 + 0.12 * std::sin(2.0 * pi * t / each); },
            [=](double t) { return 0.02 * std::sin(2.0 * pi * t / each); });
        from = goal;
        lead = !lead;
    }
}

void hop(LessonTrack& track, Draws& draw) {
    const double crouch = draw(0.3, 0.5);
    const double push = draw(0.2, 0.3);
    const double flight = draw(0.1, 0.3);
    const double landing = draw(0.3, 0.5);
    const double level = track.level;
    const auto same = [=](double) { return level; };
    const auto still = [](double) { return 0.0; };
    track.piece(
        crouch, same, [=](double t) { return 1.0 - 0.35 * std::sin(pi * t / crouch); }, still);
    track.piece(
        push, same, [=](double t) { return 1.0 + 0.8 * std::sin(pi * t / push); }, still);
    track.piece(
        flight, [](double) { return 0.5; }, [](double) { return 0.0; }, still, false);
    track.piece(
        landing, same, [=](double t) { return 1.0 + 1.2 * std::exp(-t / 0.08) * std::cos(12.0 * t); }, still);
    track.level = level;
}

void off_and_on(LessonTrack& track, Draws& draw) {
    track.step_off(draw);
    track.empty(draw(0.5, 3.0));
    track.step_on(draw);
    track.stand(draw(0.6, 1.5));
}

/// Somebody else walks over one side of the mat: a step or two of another body's load.
void crossing(LessonTrack& track, Draws& draw) {
    const int steps = static_cast<int>(draw(1.0, 3.0));
    const double level = track.level;
    for (int i = 0; i < steps; ++i) {
        const double weight = draw(0.5, 1.2);  // of the golfer's body weight
        const double on = draw(0.45, 0.75);
        const double side = draw.chance(0.5) ? draw(0.85, 1.0) : draw(0.0, 0.15);
        const double ahead = draw(-0.05, 0.1);
        // Two humps and a trough, as a walking foot loads the ground (common practice, no source).
        const auto extra = [=](double t) {
            const double u = t / on;
            return weight * std::sqrt(std::max(0.0, std::sin(pi * u))) *
                   (1.0 - 0.25 * std::sin(pi * u) * std::sin(pi * u) + 0.1 * std::cos(4.0 * pi * u));
        };
        track.piece(
            on, [=](double t) { return (level + side * extra(t)) / (1.0 + extra(t)); },
            [=](double t) { return 1.0 + extra(t); },
            [=](double t) { return ahead * extra(t) / (1.0 + extra(t)); });
        track.level = level;
        track.stand(draw(0.05, 0.4));
    }
}

/// A foot is lifted a little and put down hard.
void stamp(LessonTrack& track, Draws& draw) {
    const int times = static_cast<int>(draw(1.0, 4.0));
    const double level = track.level;
    const bool lead = draw.chance(0.5);
    for (int i = 0; i < times; ++i) {
        const double up = draw(0.15, 0.3);
        const double hard = draw(0.1, 0.5);
        const double lifted = lead ? level * draw(0.05, 0.5) : level + (1.0 - level) * draw(0.5, 0.95);
        track.piece(
            up, [=](double t) { return level + (lifted - level) * std::sin(0.5 * pi * t / up); },
            [=](double t) { return 1.0 - 0.03 * std::sin(pi * t / up); }, [](double) { return 0.0; });
        const double side = lead ? 1.0 : 0.0;
        track.piece(
            0.35,
            [=](double t) {
                const double spike = hard * std::exp(-t / 0.04);
                const double share = lifted + (level - lifted) * minimum_jerk(t / 0.08);
                return (share + side * spike) / (1.0 + spike);
            },
            [=](double t) { return 1.0 + hard * std::exp(-t / 0.04) * std::cos(20.0 * t); },
            [](double) { return 0.0; });
        track.level = level;
    }
}

/// Leans on the club: some of the body weight goes to the ground beside the plates.
void lean_on_the_club(LessonTrack& track, Draws& draw) {
    const double part = draw(0.02, 0.10);
    const double lean = draw(-0.06, 0.06);
    const double in = draw(0.3, 0.8);
    const double stay = draw(0.5, 3.0);
    const double out = draw(0.2, 0.8);
    const double level = track.level;
    const auto way = [=](double t) { return minimum_jerk(t / in) - minimum_jerk((t - in - stay) / out); };
    track.piece(
        in + stay + out, [=](double t) { return level + lean * way(t); },
        [=](double t) { return 1.0 - part * way(t); }, [=](double t) { return 0.02 * way(t); });
    track.level = level;
}

/// A tripod, a ball or a club head taps the plate.
void taps(LessonTrack& track, Draws& draw) {
    const int times = static_cast<int>(draw(1.0, 5.0));
    const double level = track.level;
    for (int i = 0; i < times; ++i) {
        const double hard = draw(0.01, 0.08);
        const double lasts = draw(0.01, 0.08);
        const double side = draw(0.0, 1.0);
        const double apart = draw(0.25, 0.8);
        const auto extra = [=](double t) { return t < lasts ? hard * std::sin(pi * t / lasts) : 0.0; };
        track.piece(
            apart, [=](double t) { return (level + side * extra(t)) / (1.0 + extra(t)); },
            [=](double t) { return 1.0 + extra(t); }, [](double) { return 0.0; });
    }
    track.level = level;
}

/// Stands a little differently, and stays so.
void shuffle(LessonTrack& track, Draws& draw) {
    const int times = static_cast<int>(draw(1.0, 4.0));
    for (int i = 0; i < times; ++i) {
        const double from = track.level;
        const double goal = std::clamp(from + either(draw(0.01, 0.06), draw), 0.4, 0.7);
        const double lasts = draw(0.3, 0.8);
        const double dip = draw(0.0, 0.012);
        track.piece(
            lasts, [=](double t) { return from + (goal - from) * minimum_jerk(t / lasts); },
            [=](double t) { return 1.0 - dip * std::sin(2.0 * pi * t / lasts); }, [](double) { return 0.0; });
        track.stand(draw(0.1, 0.8));
    }
}

}  // namespace

void waggle(LessonTrack& track, Draws& draw) {
    const double rate = draw(1.0, 2.2);
    const int cycles = static_cast<int>(draw(1.0, 4.0));
    const double size = draw(0.004, 0.03) * (draw.chance(0.5) ? -1.0 : 1.0);
    const double seconds = cycles / rate;
    const double level = track.level;
    const double push = draw(0.0, 0.012);
    track.piece(
        seconds,
        [=](double t) { return level + size * std::sin(2.0 * pi * rate * t) * std::sin(pi * t / seconds); },
        [=](double t) { return 1.0 + push * std::sin(4.0 * pi * rate * t); },
        [=](double t) { return 0.01 * std::sin(2.0 * pi * rate * t) * std::sin(pi * t / seconds); });
    track.level = level;
}

Pastime any_pastime(bool strange_ones, Draws& draw) {
    if (strange_ones && draw.chance(0.5)) {
        const double which = draw(0.0, 1.0);
        if (which < 0.25) return {"crossing", crossing};
        if (which < 0.42) return {"stamp", stamp};
        if (which < 0.60) return {"lean on the club", lean_on_the_club};
        if (which < 0.78) return {"taps", taps};
        return {"shuffle", shuffle};
    }
    const double which = draw(0.0, 1.0);
    if (which < 0.22) return {"rock", rock};
    if (which < 0.42) return {"bend", bend};
    if (which < 0.60) return {"lift a foot", lift_a_foot};
    if (which < 0.72) return {"walk on the spot", walk_on_the_spot};
    if (which < 0.80) return {"hop", hop};
    if (which < 0.88) return {"off and on", off_and_on};
    return {"waggle", waggle};
}

}  // namespace footing::testing
