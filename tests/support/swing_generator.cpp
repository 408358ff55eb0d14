#include "tests/support/swing_generator.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

namespace footing::testing {

namespace {

constexpr double pi = std::numbers::pi;

double clamp01(double u) {
    return std::clamp(u, 0.0, 1.0);
}
double minimum_jerk(double u) {
    u = clamp01(u);
    return u * u * u * (10.0 + u * (-15.0 + 6.0 * u));
}
double logistic(double u) {
    return 1.0 / (1.0 + std::exp(-u));
}
double bell(double u) {
    return std::exp(-0.5 * u * u);
}

/// A lesson is written as lead share, load in body weights and forward CoP over time, all without noise.
class LessonWriter {
  public:
    explicit LessonWriter(const LessonPlan& plan) : plan_(plan), random_(plan.seed * 7919 + 17) {}

    GeneratedLesson write() {
        empty(draw(1.0, 2.5));
        step_on();
        stand(draw(1.5, 3.5));
        for (int i = 0; i < plan_.swings; ++i) {
            if (plan_.with_distractions) {
                const int count = static_cast<int>(draw(0.0, 3.0));
                for (int k = 0; k < count; ++k) distraction();
            }
            settle_to(draw(0.48, 0.70), draw(0.7, 1.4));
            if (plan_.with_distractions && draw(0.0, 1.0) < 0.5) waggle();
            stand(draw(0.8, 2.2));
            swing();
        }
        if (plan_.with_distractions) distraction();
        stand(2.0);
        step_off();
        empty(1.0);
        return finish();
    }

  private:
    double draw(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random_);
    }

    std::size_t now() const { return share_.size(); }
    double now_s() const { return static_cast<double>(now()) / plan_.rate_hz; }

    using Curve = std::function<double(double)>;  ///< of seconds from the start of the piece
    void piece(double seconds, const Curve& share, const Curve& load, const Curve& forward,
               bool stands = true) {
        const std::size_t count =
            static_cast<std::size_t>(std::max(1.0, std::round(seconds * plan_.rate_hz)));
        for (std::size_t i = 0; i < count; ++i) {
            const double t = static_cast<double>(i) / plan_.rate_hz;
            share_.push_back(share(t));
            load_.push_back(std::max(0.0, load(t)));
            forward_.push_back(forward(t));
            stands_.push_back(stands);
            trigger_.push_back(0);
        }
        level_ = share_.back();
    }

    void empty(double seconds) {
        piece(
            seconds, [](double) { return 0.5; }, [](double) { return 0.0; }, [](double) { return 0.0; },
            false);
    }
    void stand(double seconds) {
        const double level = level_;
        piece(
            seconds, [=](double) { return level; }, [](double) { return 1.0; }, [](double) { return 0.0; });
    }
    void settle_to(double share, double seconds) {
        const double from = level_;
        piece(
            seconds, [=](double t) { return from + (share - from) * minimum_jerk(t / seconds); },
            [](double) { return 1.0; }, [](double) { return 0.0; });
    }
    void step_on() {
        const double first = draw(0.25, 0.5);
        const double second = draw(0.4, 0.8);
        const bool lead_first = draw(0.0, 1.0) < 0.5;
        const double overshoot = draw(0.02, 0.15);
        piece(
            first, [=](double) { return lead_first ? 1.0 : 0.0; },
            [=](double t) { return minimum_jerk(t / first) * (1.0 + overshoot * std::sin(pi * t / first)); },
            [](double) { return 0.0; }, false);
        const double goal = draw(0.45, 0.55);
        piece(
            second,
            [=](double t) {
                return (lead_first ? 1.0 : 0.0) +
                       (goal - (lead_first ? 1.0 : 0.0)) * minimum_jerk(t / second);
            },
            [=](double t) { return 1.0 + 0.06 * std::sin(2.0 * pi * t / second); },
            [](double) { return 0.0; });
    }
    void step_off() {
        const double first = draw(0.3, 0.6);
        const double from = level_;
        const bool lead_stays = draw(0.0, 1.0) < 0.5;
        piece(
            first,
            [=](double t) { return from + ((lead_stays ? 1.0 : 0.0) - from) * minimum_jerk(t / first); },
            [=](double t) { return 1.0 + 0.05 * std::sin(2.0 * pi * t / first); },
            [](double) { return 0.0; });
        const double second = draw(0.2, 0.4);
        piece(
            second, [=](double) { return lead_stays ? 1.0 : 0.0; },
            [=](double t) { return 1.0 - minimum_jerk(t / second); }, [](double) { return 0.0; }, false);
    }

    void waggle() {
        const double rate = draw(1.0, 2.2);
        const int cycles = static_cast<int>(draw(1.0, 4.0));
        const double size = draw(0.004, 0.03) * (draw(0.0, 1.0) < 0.5 ? -1.0 : 1.0);
        const double seconds = cycles / rate;
        const double level = level_;
        const double push = draw(0.0, 0.012);
        piece(
            seconds,
            [=](double t) {
                return level + size * std::sin(2.0 * pi * rate * t) * std::sin(pi * t / seconds);
            },
            [=](double t) { return 1.0 + push * std::sin(4.0 * pi * rate * t); },
            [=](double t) { return 0.01 * std::sin(2.0 * pi * rate * t) * std::sin(pi * t / seconds); });
        level_ = level;
    }
    void rock() {
        const double rate = draw(0.25, 1.0);
        const int cycles = static_cast<int>(draw(1.0, 5.0));
        const double size = draw(0.03, 0.25) * (draw(0.0, 1.0) < 0.5 ? -1.0 : 1.0);
        const double seconds = cycles / rate;
        const double level = level_;
        piece(
            seconds, [=](double t) { return level + size * std::sin(2.0 * pi * rate * t); },
            [=](double t) { return 1.0 + 0.015 * std::sin(4.0 * pi * rate * t); },
            [=](double t) { return 0.01 * std::sin(2.0 * pi * rate * t); });
        level_ = level;
    }
    void bend() {
        const double down = draw(0.6, 1.1);
        const double stay = draw(0.3, 1.2);
        const double up = draw(0.6, 1.1);
        const double reach = draw(0.02, 0.07);
        const double lean = draw(-0.12, 0.12);
        const double dip = draw(0.03, 0.14);
        const double level = level_;
        const auto part = [=](double t) {
            if (t < down) return minimum_jerk(t / down);
            if (t < down + stay) return 1.0;
            return 1.0 - minimum_jerk((t - down - stay) / up);
        };
        piece(
            down + stay + up, [=](double t) { return level + lean * part(t); },
            [=](double t) {
                if (t < down) return 1.0 - dip * std::sin(2.0 * pi * t / down);
                if (t < down + stay) return 1.0;
                return 1.0 + dip * std::sin(2.0 * pi * (t - down - stay) / up);
            },
            [=](double t) { return reach * part(t); });
        level_ = level;
    }
    void lift_a_foot() {
        const double shift = draw(0.25, 0.6);
        const double hold = draw(0.15, 1.0);
        const double goal = draw(0.0, 1.0) < 0.5 ? 1.0 : 0.0;
        const double before =
            draw(0.0, 0.06) * (goal > 0.5 ? -1.0 : 1.0);  // first pushes off from the other foot
        const double level = level_;
        const double ready = draw(0.15, 0.35);
        piece(
            ready, [=](double t) { return level + before * minimum_jerk(t / ready); },
            [](double) { return 1.0; }, [](double) { return 0.0; });
        const double from = level + before;
        piece(
            shift, [=](double t) { return from + (goal - from) * minimum_jerk(t / shift); },
            [=](double t) { return 1.0 + 0.04 * std::sin(2.0 * pi * t / shift); },
            [](double) { return 0.0; });
        piece(
            hold, [=](double) { return goal; }, [](double) { return 1.0; }, [](double) { return 0.0; });
        const double end = draw(0.45, 0.6);
        piece(
            shift, [=](double t) { return goal + (end - goal) * minimum_jerk(t / shift); },
            [=](double t) { return 1.0 + 0.05 * std::sin(2.0 * pi * t / shift); },
            [](double) { return 0.0; });
    }
    void walk_on_the_spot() {
        const int steps = static_cast<int>(draw(3.0, 9.0));
        const double each = draw(0.45, 0.7);
        bool lead = draw(0.0, 1.0) < 0.5;
        double from = level_;
        for (int i = 0; i < steps; ++i) {
            const double goal = i + 1 == steps ? 0.52 : (lead ? 1.0 : 0.0);
            piece(
                each, [=](double t) { return from + (goal - from) * minimum_jerk(1.6 * t / each); },
                [=](double t) { return 1.0 + 0.12 * std::sin(2.0 * pi * t / each); },
                [=](double t) { return 0.02 * std::sin(2.0 * pi * t / each); });
            from = goal;
            lead = !lead;
        }
    }
    void hop() {
        const double crouch = draw(0.3, 0.5);
        const double push = draw(0.2, 0.3);
        const double flight = draw(0.1, 0.3);
        const double landing = draw(0.3, 0.5);
        const double level = level_;
        const auto same = [=](double) { return level; };
        const auto still = [](double) { return 0.0; };
        piece(
            crouch, same, [=](double t) { return 1.0 - 0.35 * std::sin(pi * t / crouch); }, still);
        piece(
            push, same, [=](double t) { return 1.0 + 0.8 * std::sin(pi * t / push); }, still);
        piece(
            flight, [](double) { return 0.5; }, [](double) { return 0.0; }, still, false);
        piece(
            landing, same, [=](double t) { return 1.0 + 1.2 * std::exp(-t / 0.08) * std::cos(12.0 * t); },
            still);
        level_ = level;
    }
    void off_and_on() {
        step_off();
        empty(draw(0.5, 3.0));
        step_on();
        stand(draw(0.6, 1.5));
    }
    void distraction() {
        const double which = draw(0.0, 1.0);
        Distraction done{"waggle", now_s(), 0.0};
        if (which < 0.22) {
            done.what = "rock";
            rock();
        } else if (which < 0.42) {
            done.what = "bend";
            bend();
        } else if (which < 0.60) {
            done.what = "lift a foot";
            lift_a_foot();
        } else if (which < 0.72) {
            done.what = "walk on the spot";
            walk_on_the_spot();
        } else if (which < 0.80) {
            done.what = "hop";
            hop();
        } else if (which < 0.88) {
            done.what = "off and on";
            off_and_on();
        } else {
            waggle();
        }
        done.to_s = now_s();
        distractions_.push_back(done);
        stand(draw(0.2, 1.5));
    }

    void swing() {
        TrueSwing truth;
        const double unusual = draw(0.0, 1.0);
        if (unusual < 0.5 * plan_.unusual_golfers) {
            truth.path = LoadPath::stays_lead;
        } else if (unusual < plan_.unusual_golfers) {
            truth.path = LoadPath::nearly_constant;
        }
        const double length = draw(0.0, 1.0);  // 0 is a short pitch, 1 a full swing
        const double address = level_;
        double back = plan_.smallest_backswing +
                      (plan_.largest_backswing - plan_.smallest_backswing) * length * draw(0.6, 1.0);
        double end = std::min(0.96, std::max(address + 0.08, 0.78 + 0.14 * length + draw(-0.05, 0.05)));
        if (truth.path == LoadPath::stays_lead) back = -draw(0.01, 0.04);
        if (truth.path == LoadPath::nearly_constant) {
            back = draw(-0.004, 0.004);
            end = address + draw(0.01, 0.04);
        }
        truth.backswing = back;
        const double backswing_s = draw(0.55, 0.75) + 0.3 * length * draw(0.0, 1.0);
        const double downswing_s = draw(0.22, 0.34);
        const double push =
            0.05 + 0.35 * length * draw(0.6, 1.0) + (truth.path == LoadPath::nearly_constant ? 0.05 : 0.0);
        const double hold = draw(0.5, 2.0);
        const double forward_back =
            truth.path == LoadPath::nearly_constant ? -draw(0.01, 0.027) : draw(-0.015, 0.01);
        const double forward_end = draw(-0.01, 0.025);
        const double overshoot = draw(-0.01, 0.03) * (end - address);
        const double follow_s = draw(0.25, 0.5);

        const double push_before = draw(0.05, 0.11);
        const double push_width = draw(0.05, 0.085);
        const double drop = push * draw(0.3, 0.9);
        const double drop_after = draw(0.02, 0.09);
        const double drop_width = draw(0.05, 0.09);

        const double low = address - back;
        Curve share;
        double takeaway = 0.0;
        double impact = 0.0;
        double rest = 0.0;  // from here on the finish is held
        switch (plan_.shape) {
            case MotionShape::minimum_jerk: {
                impact = backswing_s + downswing_s;
                const double arrives = impact + draw(-0.01, 0.05);
                rest = arrives + follow_s;
                share = [=](double t) {
                    if (t < backswing_s) return address - back * minimum_jerk(t / backswing_s);
                    if (t < arrives)
                        return low + (end + overshoot - low) *
                                         minimum_jerk((t - backswing_s) / (arrives - backswing_s));
                    return end + overshoot - overshoot * minimum_jerk((t - arrives) / follow_s);
                };
                break;
            }
            case MotionShape::logistic: {
                const double rise = downswing_s * draw(0.16, 0.22);
                const double fall = backswing_s * draw(0.09, 0.13);
                takeaway = 0.15;
                const double fall_middle = takeaway + 4.6 * fall;  // 1 % of the way at the takeaway
                const double rise_middle = takeaway + backswing_s + 0.5 * downswing_s;
                impact = rise_middle + rise * draw(1.2, 2.4);
                rest = rise_middle + 5.0 * rise + draw(0.0, 0.1);
                const double start = logistic(-fall_middle / fall);
                share = [=](double t) {
                    const double gone = (logistic((t - fall_middle) / fall) - start) / (1.0 - start);
                    return address - back * std::max(0.0, gone) +
                           (end - low) * logistic((t - rise_middle) / rise);
                };
                break;
            }
            case MotionShape::pendulum: {
                // Where the body is told to be, followed with a lag by a damped second-order system.
                const double quickness = 2.0 * pi * draw(2.2, 3.2);
                const double damping = draw(0.75, 1.0);
                const double turn = backswing_s - 0.05;
                const double backward_s = 0.8 * turn;
                impact = backswing_s + downswing_s;
                std::vector<double> path;
                double place = address;
                double speed = 0.0;
                const double dt = 1.0 / (plan_.rate_hz * 4.0);
                const double total_s = impact + follow_s + 0.8;
                for (double t = 0.0; t < total_s; t += dt) {
                    double goal = end;
                    if (t < turn)
                        goal = address - back * (0.5 - 0.5 * std::cos(pi * std::min(1.0, t / backward_s)));
                    const double w = t < turn ? quickness : 1.4 * quickness;
                    const double acceleration = w * w * (goal - place) - 2.0 * damping * w * speed;
                    speed += acceleration * dt;
                    place += speed * dt;
                    path.push_back(place);
                }
                rest = impact + follow_s;
                share = [path, dt](double t) {
                    return path[std::min(path.size() - 1, static_cast<std::size_t>(std::max(0.0, t / dt)))];
                };
                break;
            }
            case MotionShape::beta_bumps: {
                const double lasts = backswing_s + draw(0.06, 0.12);
                impact = backswing_s + downswing_s;
                const double rise_from = backswing_s - 0.06;
                const double rise_s = downswing_s + 0.06 + draw(0.03, 0.10);
                rest = rise_from + rise_s + follow_s;
                const double settles = std::min(draw(0.0, 0.04), 0.965 - end);
                const double a = draw(2.2, 3.0);
                const double b = draw(1.3, 1.8);
                const double peak = std::pow(a / (a + b), a) * std::pow(b / (a + b), b);
                share = [=](double t) {
                    double value = address;
                    const double u = clamp01(t / lasts);
                    value -= back * std::pow(u, a) * std::pow(1.0 - u, b) / peak;
                    const double v = clamp01((t - rise_from) / rise_s);
                    value += (end + settles - address) * v * v * (3.0 - 2.0 * v) * (0.4 * v + 0.6) /
                             (0.4 * 1.0 + 0.6);
                    value -= settles * minimum_jerk((t - rise_from - rise_s) / follow_s);
                    return value;
                };
                break;
            }
        }
        const double seconds = rest + hold;
        const auto load = [=](double t) {
            return 1.0 + push * bell((t - (impact - push_before)) / push_width) -
                   drop * bell((t - (impact + drop_after)) / drop_width) -
                   0.25 * push * bell((t - (impact - downswing_s - 0.02)) / 0.09);
        };
        const auto forward = [=](double t) {
            return forward_back * minimum_jerk((t - takeaway) / backswing_s) +
                   (forward_end - forward_back) *
                       minimum_jerk((t - takeaway - backswing_s) / (downswing_s + 0.1));
        };
        const double begin_s = now_s();
        const std::size_t begin = now();
        piece(seconds, share, load, forward);
        if (plan_.with_trigger) {
            const std::size_t at = begin + static_cast<std::size_t>(std::ceil(impact * plan_.rate_hz));
            const std::size_t width = static_cast<std::size_t>(std::max(1.0, 0.02 * plan_.rate_hz));
            for (std::size_t i = at; i < std::min(at + width, now()); ++i) trigger_[i] = 1;
        }
        truth.takeaway_s = begin_s + takeaway;
        truth.impact_s = begin_s + impact;
        truth.finish_s = begin_s + rest;
        swings_.push_back(truth);
        const double from = forward_end;
        const double goal = draw(0.48, 0.56);
        const double back_s = draw(0.6, 1.5);
        const double level = level_;
        piece(
            back_s, [=](double t) { return level + (goal - level) * minimum_jerk(t / back_s); },
            [](double) { return 1.0; }, [=](double t) { return from * (1.0 - minimum_jerk(t / back_s)); });
    }

    /// Slow wander with unit standard deviation, of another kind for each shape.
    std::vector<double> wander(std::size_t count, double corner_hz) {
        std::normal_distribution<double> normal;
        std::vector<double> values(count);
        if (plan_.shape == MotionShape::minimum_jerk || plan_.shape == MotionShape::beta_bumps) {
            const double pull = std::exp(-2.0 * pi * corner_hz / plan_.rate_hz);
            double first = 0.0;
            double second = 0.0;
            for (double& value : values) {
                first = pull * first + std::sqrt(1.0 - pull * pull) * normal(random_);
                second = pull * second + (1.0 - pull) * first;
                value = std::numbers::sqrt2 * second;
            }
        } else {
            double squares = 0.0;
            std::vector<std::array<double, 3>> waves;
            for (int i = 0; i < 24; ++i) {
                const double frequency = corner_hz * std::exp(draw(-1.6, 1.1));
                const double size = 1.0 / std::sqrt(1.0 + std::pow(frequency / corner_hz, 3.0));
                waves.push_back({size, 2.0 * pi * frequency / plan_.rate_hz, draw(0.0, 2.0 * pi)});
                squares += 0.5 * size * size;
            }
            for (const auto& [size, step, phase] : waves) {
                const std::size_t n = count;
                for (std::size_t i = 0; i < n; ++i)
                    values[i] += size * std::sin(step * static_cast<double>(i) + phase) / std::sqrt(squares);
            }
        }
        return values;
    }

    GeneratedLesson finish() {
        const std::size_t n = now();
        std::normal_distribution<double> normal;
        const std::vector<double> share_wander = wander(n, 0.35);
        const std::vector<double> forward_wander = wander(n, 0.3);
        const std::vector<double> load_wander = wander(n, 1.2);
        GeneratedLesson lesson;
        LoadTrace& trace = lesson.trace;
        lesson.body_weight_n = plan_.mass_kg * standard_gravity_m_s2;
        trace.rate_hz = plan_.rate_hz;
        const double half_stance = draw(0.13, 0.22);
        const double side = plan_.hand == Hand::right ? -1.0 : 1.0;  // where the lead foot is
        lesson.true_share.resize(n);
        for (std::size_t i = 0; i < n; ++i) {
            const double sway = stands_[i] ? plan_.sway_share : 0.0;
            const double share = std::clamp(share_[i] + sway * share_wander[i], 0.0, 1.0);
            lesson.true_share[i] = share;
            const double total =
                lesson.body_weight_n * load_[i] * (1.0 + (stands_[i] ? 0.002 * load_wander[i] : 0.0));
            const double lead = total * share + 2.0 * plan_.noise_n * normal(random_);
            const double trail = total * (1.0 - share) + 2.0 * plan_.noise_n * normal(random_);
            const double left = plan_.hand == Hand::right ? lead : trail;
            const double right = plan_.hand == Hand::right ? trail : lead;
            const double both = left + right;
            const double forward = forward_[i] + 0.5 * sway * forward_wander[i];
            const auto cop_noise = [&](double foot) {
                return 0.2 * 2.0 * plan_.noise_n / foot * normal(random_);
            };
            const double lead_x = side * half_stance + 0.01 * share_wander[i] * sway;
            const double trail_x = -side * half_stance;
            trace.time_s.push_back(static_cast<double>(i) / plan_.rate_hz);
            trace.total_n.push_back(both);
            trace.left_n.push_back(plan_.feet_known ? left : unknown);
            trace.right_n.push_back(plan_.feet_known ? right : unknown);
            const double floor_n = 20.0;
            const double foot_y = forward;
            const double left_x = plan_.hand == Hand::right ? lead_x : trail_x;
            const double right_x = plan_.hand == Hand::right ? trail_x : lead_x;
            const bool has_left = left >= floor_n;
            const bool has_right = right >= floor_n;
            const double lx = has_left ? left_x + cop_noise(left) : unknown;
            const double ly = has_left ? foot_y + cop_noise(left) : unknown;
            const double rx = has_right ? right_x + cop_noise(right) : unknown;
            const double ry = has_right ? foot_y + cop_noise(right) : unknown;
            if (both >= floor_n) {
                const double px = (left * left_x + right * right_x) / both + cop_noise(both);
                trace.cop_x_m.push_back(px);
                trace.cop_y_m.push_back(foot_y + cop_noise(both));
            } else {
                trace.cop_x_m.push_back(unknown);
                trace.cop_y_m.push_back(unknown);
            }
            trace.left_x_m.push_back(plan_.feet_known ? lx : unknown);
            trace.left_y_m.push_back(plan_.feet_known ? ly : unknown);
            trace.right_x_m.push_back(plan_.feet_known ? rx : unknown);
            trace.right_y_m.push_back(plan_.feet_known ? ry : unknown);
            trace.trigger.push_back(trigger_[i]);
            trace.bridged.push_back(0);
        }
        for (TrueSwing& swing : swings_) complete(swing, lesson);
        lesson.swings = swings_;
        lesson.distractions = distractions_;
        return lesson;
    }

    /// What the events mean, from the shares that came about.
    void complete(TrueSwing& swing, const GeneratedLesson& lesson) const {
        const auto at = [&](double time_s) {
            return std::min(lesson.true_share.size() - 1,
                            static_cast<std::size_t>(std::max(0.0, std::round(time_s * plan_.rate_hz))));
        };
        const std::size_t takeaway = at(swing.takeaway_s);
        const std::size_t impact = at(swing.impact_s);
        const auto lowest = std::min_element(share_.begin() + static_cast<std::ptrdiff_t>(takeaway),
                                             share_.begin() + static_cast<std::ptrdiff_t>(impact) + 1);
        const std::size_t turn = static_cast<std::size_t>(lowest - share_.begin());
        swing.turnaround_s = static_cast<double>(turn) / plan_.rate_hz;
        swing.lowest_share =
            *std::min_element(lesson.true_share.begin() + static_cast<std::ptrdiff_t>(takeaway),
                              lesson.true_share.begin() + static_cast<std::ptrdiff_t>(impact) + 1);
        swing.impact_share = lesson.true_share[impact];
        const auto mean_of = [&](double from_s, double to_s) {
            double sum = 0.0;
            for (std::size_t i = at(from_s); i < at(to_s); ++i) sum += lesson.true_share[i];
            return sum / static_cast<double>(std::max<std::size_t>(1, at(to_s) - at(from_s)));
        };
        swing.address_share = mean_of(swing.takeaway_s - 0.6, swing.takeaway_s - 0.1);
        swing.finish_share = mean_of(swing.finish_s, swing.finish_s + 0.3);
    }

    LessonPlan plan_;
    std::mt19937_64 random_;
    double level_ = 0.5;
    std::vector<double> share_;
    std::vector<double> load_;
    std::vector<double> forward_;
    std::vector<bool> stands_;
    std::vector<std::uint8_t> trigger_;
    std::vector<TrueSwing> swings_;
    std::vector<Distraction> distractions_;
};

}  // namespace

GeneratedLesson generate_lesson(const LessonPlan& plan) {
    return LessonWriter(plan).write();
}

}  // namespace footing::testing
