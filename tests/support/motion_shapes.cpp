#include "tests/support/motion_shapes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>
#include <vector>

namespace footing::testing {

namespace {

constexpr double pi = std::numbers::pi;

double clamp01(double u) {
    return std::clamp(u, 0.0, 1.0);
}
double logistic(double u) {
    return 1.0 / (1.0 + std::exp(-u));
}
/// Rises late and settles slowly: an asymmetric logistic (Gompertz).
double gompertz(double u) {
    return std::exp(-std::exp(-u));
}

ShareMotion minimum_jerk_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    motion.impact_s = s.backswing_s + s.downswing_s;
    const double arrives = motion.impact_s + draw(-0.01, 0.05);
    motion.rest_s = arrives + s.follow_s;
    const double low = s.address - s.back;
    motion.share = [=](double t) {
        if (t < s.backswing_s) return s.address - s.back * minimum_jerk(t / s.backswing_s);
        if (t < arrives)
            return low + (s.end + s.overshoot - low) *
                             minimum_jerk((t - s.backswing_s) / (arrives - s.backswing_s));
        return s.end + s.overshoot - s.overshoot * minimum_jerk((t - arrives) / s.follow_s);
    };
    return motion;
}

ShareMotion logistic_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    const double low = s.address - s.back;
    const double rise = s.downswing_s * draw(0.16, 0.22);
    const double fall = s.backswing_s * draw(0.09, 0.13);
    motion.takeaway_s = 0.15;
    const double fall_middle = motion.takeaway_s + 4.6 * fall;  // 1 % of the way at the takeaway
    const double rise_middle = motion.takeaway_s + s.backswing_s + 0.5 * s.downswing_s;
    motion.impact_s = rise_middle + rise * draw(1.2, 2.4);
    motion.rest_s = rise_middle + 5.0 * rise + draw(0.0, 0.1);
    const double start = logistic(-fall_middle / fall);
    motion.share = [=](double t) {
        const double gone = (logistic((t - fall_middle) / fall) - start) / (1.0 - start);
        return s.address - s.back * std::max(0.0, gone) + (s.end - low) * logistic((t - rise_middle) / rise);
    };
    return motion;
}

/// Where the body is told to be, followed with a lag by a damped second-order system.
ShareMotion pendulum_motion(const SwingSize& s, double rate_hz, Draws& draw) {
    ShareMotion motion;
    const double quickness = 2.0 * pi * draw(2.2, 3.2);
    const double damping = draw(0.75, 1.0);
    const double turn = s.backswing_s - 0.05;
    const double backward_s = 0.8 * turn;
    motion.impact_s = s.backswing_s + s.downswing_s;
    std::vector<double> path;
    double place = s.address;
    double speed = 0.0;
    const double dt = 1.0 / (rate_hz * 4.0);
    const double total_s = motion.impact_s + s.follow_s + 0.8;
    for (double t = 0.0; t < total_s; t += dt) {
        double goal = s.end;
        if (t < turn) goal = s.address - s.back * (0.5 - 0.5 * std::cos(pi * std::min(1.0, t / backward_s)));
        const double w = t < turn ? quickness : 1.4 * quickness;
        const double acceleration = w * w * (goal - place) - 2.0 * damping * w * speed;
        speed += acceleration * dt;
        place += speed * dt;
        path.push_back(place);
    }
    motion.rest_s = motion.impact_s + s.follow_s;
    motion.share = [path, dt](double t) {
        return path[std::min(path.size() - 1, static_cast<std::size_t>(std::max(0.0, t / dt)))];
    };
    return motion;
}

ShareMotion beta_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    const double lasts = s.backswing_s + draw(0.06, 0.12);
    motion.impact_s = s.backswing_s + s.downswing_s;
    const double rise_from = s.backswing_s - 0.06;
    const double rise_s = s.downswing_s + 0.06 + draw(0.03, 0.10);
    motion.rest_s = rise_from + rise_s + s.follow_s;
    const double settles = std::min(draw(0.0, 0.04), 0.965 - s.end);
    const double a = draw(2.2, 3.0);
    const double b = draw(1.3, 1.8);
    const double peak = std::pow(a / (a + b), a) * std::pow(b / (a + b), b);
    motion.share = [=](double t) {
        double value = s.address;
        const double u = clamp01(t / lasts);
        value -= s.back * std::pow(u, a) * std::pow(1.0 - u, b) / peak;
        const double v = clamp01((t - rise_from) / rise_s);
        value += (s.end + settles - s.address) * v * v * (3.0 - 2.0 * v) * (0.4 * v + 0.6);
        value -= settles * minimum_jerk((t - rise_from - rise_s) / s.follow_s);
        return value;
    };
    return motion;
}

/// Straight lines whose corners are rounded by a sliding mean.
ShareMotion straight_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    motion.takeaway_s = 0.1;
    const double round_s = draw(0.06, 0.14);
    const double turn = motion.takeaway_s + s.backswing_s;
    motion.impact_s = turn + s.downswing_s;
    const double arrives = motion.impact_s + draw(-0.03, 0.05);
    motion.rest_s = arrives + s.follow_s;
    // The integral of the corners, so that the sliding mean is a difference of two values.
    const std::array<double, 5> at{-10.0, motion.takeaway_s + 0.5 * round_s, turn, arrives, motion.rest_s};
    const std::array<double, 5> value{s.address, s.address, s.address - s.back, s.end + s.overshoot, s.end};
    const auto integral = [=](double t) {
        double sum = 0.0;
        for (std::size_t i = 0; i + 1 < at.size(); ++i) {
            const double to = std::min(t, at[i + 1]);
            if (to <= at[i]) return sum;
            const double slope = (value[i + 1] - value[i]) / (at[i + 1] - at[i]);
            const double d = to - at[i];
            sum += value[i] * d + 0.5 * slope * d * d;
        }
        return sum + value.back() * std::max(0.0, t - at.back());
    };
    motion.share = [=](double t) {
        return (integral(t + 0.5 * round_s) - integral(t - 0.5 * round_s)) / round_s;
    };
    return motion;
}

ShareMotion asymmetric_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    motion.takeaway_s = 0.12;
    const double fall = s.backswing_s * draw(0.12, 0.17);
    const double rise = s.downswing_s * draw(0.20, 0.30);
    const double fall_middle = motion.takeaway_s + 1.5 * fall;  // 1 % of the way at the takeaway
    const double rise_middle = motion.takeaway_s + s.backswing_s + 1.2 * rise;
    motion.impact_s = rise_middle + rise * draw(1.6, 2.6);
    motion.rest_s = rise_middle + 5.0 * rise;
    motion.share = [=](double t) {
        return s.address - s.back * gompertz((t - fall_middle) / fall) +
               (s.end - s.address + s.back) * gompertz((t - rise_middle) / rise);
    };
    return motion;
}

/// Loads early, then creeps on; comes back early in part, and goes on through the strike.
ShareMotion two_stage_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    const double early = draw(0.55, 0.8);
    const double early_s = s.backswing_s * draw(0.45, 0.65);
    const double first_return = draw(0.15, 0.35);
    motion.impact_s = s.backswing_s + s.downswing_s;
    const double quick_from = s.backswing_s + 0.35 * s.downswing_s;
    const double arrives = motion.impact_s + draw(0.0, 0.06);
    motion.rest_s = arrives + s.follow_s;
    const double low = s.address - s.back;
    const double way = s.end + s.overshoot - low;
    motion.share = [=](double t) {
        return s.address -
               s.back *
                   (early * minimum_jerk(t / early_s) +
                    (1.0 - early) * minimum_jerk((t - 0.4 * early_s) / (s.backswing_s - 0.4 * early_s))) +
               way * (first_return * minimum_jerk((t - s.backswing_s) / (0.8 * s.downswing_s)) +
                      (1.0 - first_return) * minimum_jerk((t - quick_from) / (arrives - quick_from))) -
               s.overshoot * minimum_jerk((t - arrives) / s.follow_s);
    };
    return motion;
}

/// A monotone cubic (Fritsch & Carlson 1980) through knots of which most are drawn.
ShareMotion spline_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    motion.impact_s = s.backswing_s + s.downswing_s;
    const double arrives = motion.impact_s + draw(0.0, 0.08);
    motion.rest_s = arrives + s.follow_s;
    const double low = s.address - s.back;
    std::vector<std::pair<double, double>> knots{{-1.0, s.address}, {0.0, s.address}};
    knots.push_back({s.backswing_s * draw(0.35, 0.5), s.address - s.back * draw(0.25, 0.55)});
    knots.push_back({s.backswing_s * draw(0.7, 0.85), s.address - s.back * draw(0.75, 0.95)});
    knots.push_back({s.backswing_s, low});
    knots.push_back({s.backswing_s + s.downswing_s * draw(0.45, 0.6), low + (s.end - low) * draw(0.3, 0.55)});
    knots.push_back({arrives, s.end + s.overshoot});
    knots.push_back({motion.rest_s, s.end});
    knots.push_back({motion.rest_s + 10.0, s.end});
    const std::size_t n = knots.size();
    std::vector<double> secant(n - 1);
    std::vector<double> slope(n, 0.0);
    for (std::size_t i = 0; i + 1 < n; ++i)
        secant[i] = (knots[i + 1].second - knots[i].second) / (knots[i + 1].first - knots[i].first);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        if (secant[i - 1] * secant[i] > 0.0)
            slope[i] = 2.0 * secant[i - 1] * secant[i] / (secant[i - 1] + secant[i]);
    }
    motion.share = [=](double t) {
        std::size_t i = 0;
        while (i + 2 < n && t >= knots[i + 1].first) ++i;
        const double width = knots[i + 1].first - knots[i].first;
        const double u = clamp01((t - knots[i].first) / width);
        const double v = 1.0 - u;
        return knots[i].second * (1.0 + 2.0 * u) * v * v + width * slope[i] * u * v * v +
               knots[i + 1].second * u * u * (3.0 - 2.0 * u) - width * slope[i + 1] * u * u * v;
    };
    return motion;
}

/// Half cosines there and back, a pause between them, and a rebound off the lead foot after the strike.
ShareMotion half_cosine_motion(const SwingSize& s, Draws& draw) {
    ShareMotion motion;
    const double pause = draw(0.0, 0.08);
    const double rebound = draw(0.0, 0.05) * std::abs(s.end - s.address + s.back);
    const double starts = s.backswing_s + pause;
    motion.impact_s = starts + s.downswing_s;
    const double arrives = motion.impact_s + draw(-0.02, 0.07);
    motion.rest_s = arrives + s.follow_s;
    const double low = s.address - s.back;
    const auto half_wave = [](double part) { return 0.5 - 0.5 * std::cos(pi * clamp01(part)); };
    motion.share = [=](double t) {
        const double bounce = clamp01((t - arrives) / s.follow_s);
        return s.address - s.back * half_wave(t / s.backswing_s) +
               (s.end - low) * half_wave((t - starts) / (arrives - starts)) -
               rebound * std::sin(pi * bounce) * std::sin(pi * bounce);
    };
    return motion;
}

}  // namespace

double minimum_jerk(double part) {
    const double u = clamp01(part);
    return u * u * u * (10.0 + u * (-15.0 + 6.0 * u));
}

double bell(double u) {
    return std::exp(-0.5 * u * u);
}

ShareMotion share_motion(MotionShape shape, const SwingSize& size, double rate_hz, Draws& draw) {
    switch (shape) {
        case MotionShape::minimum_jerk:
            return minimum_jerk_motion(size, draw);
        case MotionShape::logistic:
            return logistic_motion(size, draw);
        case MotionShape::pendulum:
            return pendulum_motion(size, rate_hz, draw);
        case MotionShape::beta_bumps:
            return beta_motion(size, draw);
        case MotionShape::straight:
            return straight_motion(size, draw);
        case MotionShape::asymmetric:
            return asymmetric_motion(size, draw);
        case MotionShape::two_stage:
            return two_stage_motion(size, draw);
        case MotionShape::spline:
            return spline_motion(size, draw);
        case MotionShape::half_cosine:
            return half_cosine_motion(size, draw);
    }
    return minimum_jerk_motion(size, draw);
}

}  // namespace footing::testing
