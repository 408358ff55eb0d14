#include "tests/support/plate_noise.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace footing::testing {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double floor_n = 20.0;

/// White noise through two low passes.
void add_filtered(std::vector<double>& values, double corner_hz, double rate_hz, Draws& draw) {
    std::normal_distribution<double> normal;
    const double pull = std::exp(-2.0 * pi * corner_hz / rate_hz);
    double first = 0.0;
    double second = 0.0;
    for (double& value : values) {
        first = pull * first + std::sqrt(1.0 - pull * pull) * normal(draw.engine());
        second = pull * second + (1.0 - pull) * first;
        value = std::numbers::sqrt2 * second;
    }
}

void add_waves(std::vector<double>& values, double corner_hz, double rate_hz, Draws& draw) {
    double squares = 0.0;
    std::vector<std::array<double, 3>> waves;
    for (int i = 0; i < 24; ++i) {
        const double frequency = corner_hz * std::exp(draw(-1.6, 1.1));
        const double size = 1.0 / std::sqrt(1.0 + std::pow(frequency / corner_hz, 3.0));
        waves.push_back({size, 2.0 * pi * frequency / rate_hz, draw(0.0, 2.0 * pi)});
        squares += 0.5 * size * size;
    }
    for (const auto& [size, step, phase] : waves) {
        for (std::size_t i = 0; i < values.size(); ++i)
            values[i] += size * std::sin(step * static_cast<double>(i) + phase) / std::sqrt(squares);
    }
}

/// Pink over five octaves, each octave a low pass of its own; nothing quicker than three times the corner.
void add_pink(std::vector<double>& values, double corner_hz, double rate_hz, Draws& draw) {
    std::normal_distribution<double> normal;
    constexpr int octaves = 5;
    for (int k = 0; k < octaves; ++k) {
        const double corner = corner_hz * 2.0 / std::pow(2.0, k);
        const double pull = std::exp(-2.0 * pi * corner / rate_hz);
        double first = normal(draw.engine());
        double second = first / std::numbers::sqrt2;
        for (double& value : values) {
            first = pull * first + std::sqrt(1.0 - pull * pull) * normal(draw.engine());
            second = pull * second + (1.0 - pull) * first;
            value += std::numbers::sqrt2 * second / std::sqrt(static_cast<double>(octaves));
        }
    }
}

/// Slow wander with unit standard deviation, of another kind for each shape and colour.
std::vector<double> wander(const LessonPlan& plan, std::size_t count, double corner_hz, Draws& draw) {
    std::vector<double> values(count);
    if (plan.colour != NoiseColour::plain) {
        add_pink(values, corner_hz, plan.rate_hz, draw);
    } else if (plan.shape == MotionShape::minimum_jerk || plan.shape == MotionShape::beta_bumps ||
               plan.shape == MotionShape::straight || plan.shape == MotionShape::two_stage) {
        add_filtered(values, corner_hz, plan.rate_hz, draw);
    } else {
        add_waves(values, corner_hz, plan.rate_hz, draw);
    }
    return values;
}

/// The load of one foot as its plate tells it.
class PlateFaults {
  public:
    PlateFaults(const LessonPlan& plan, Draws& draw) : plan_(plan) {
        if (plan.colour == NoiseColour::drift_and_hum) {
            hum_n_ = draw(0.3, 1.0) * plan.noise_n;
            hum_phase_ = draw(0.0, 2.0 * pi);
            drift_n_ = 0.1 * plan.noise_n;  // a second, as a random walk
        }
        if (plan.colour == NoiseColour::quantised) step_n_ = draw(0.5, 2.0) * plan.noise_n;
    }
    double operator()(double true_n, std::size_t i, Draws& draw) {
        double load_n = true_n + 2.0 * plan_.noise_n * normal_(draw.engine());
        if (drift_n_ > 0.0) {
            zero_n_ = 0.99999 * zero_n_ + drift_n_ / std::sqrt(plan_.rate_hz) * normal_(draw.engine());
            load_n += zero_n_ + hum_n_ * std::sin(2.0 * pi * 50.0 * static_cast<double>(i) / plan_.rate_hz +
                                                  hum_phase_);
        }
        return step_n_ > 0.0 ? step_n_ * std::round(load_n / step_n_) : load_n;
    }

  private:
    const LessonPlan& plan_;
    std::normal_distribution<double> normal_;
    double hum_n_ = 0.0;
    double hum_phase_ = 0.0;
    double drift_n_ = 0.0;
    double zero_n_ = 0.0;
    double step_n_ = 0.0;
};

}  // namespace

void measure_lesson(const LessonPlan& plan, const LessonTrack& track, Draws& draw, GeneratedLesson& lesson) {
    const std::size_t n = track.now();
    const std::vector<double> share_wander = wander(plan, n, 0.35, draw);
    const std::vector<double> forward_wander = wander(plan, n, 0.3, draw);
    const std::vector<double> load_wander = wander(plan, n, 1.2, draw);
    LoadTrace& trace = lesson.trace;
    lesson.body_weight_n = plan.mass_kg * standard_gravity_m_s2;
    trace.rate_hz = plan.rate_hz;
    const double half_stance = draw(0.13, 0.22);
    const double side = plan.hand == Hand::right ? -1.0 : 1.0;  // where the lead foot is
    PlateFaults lead_plate(plan, draw);
    PlateFaults trail_plate(plan, draw);
    std::normal_distribution<double> normal;
    lesson.true_share.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
        const bool stands = track.stands[i];
        const double sway = stands ? plan.sway_share : 0.0;
        const double share = std::clamp(track.share[i] + sway * share_wander[i], 0.0, 1.0);
        lesson.true_share[i] = share;
        const double total =
            lesson.body_weight_n * track.load_bw[i] * (1.0 + (stands ? 0.002 * load_wander[i] : 0.0));
        const double lead = lead_plate(total * share, i, draw);
        const double trail = trail_plate(total * (1.0 - share), i, draw);
        const bool right_handed = plan.hand == Hand::right;
        const double left = right_handed ? lead : trail;
        const double right = right_handed ? trail : lead;
        const double both = left + right;
        const double foot_y = track.forward_m[i] + 0.5 * sway * forward_wander[i];
        const auto cop_noise = [&](double foot) { return 0.4 * plan.noise_n / foot * normal(draw.engine()); };
        const double lead_x = side * half_stance + 0.01 * share_wander[i] * sway;
        const double trail_x = -side * half_stance;
        const double left_x = right_handed ? lead_x : trail_x;
        const double right_x = right_handed ? trail_x : lead_x;
        const auto push = [](std::vector<double>& column, bool is_known, double value) {
            column.push_back(is_known ? value : unknown);
        };
        trace.time_s.push_back(static_cast<double>(i) / plan.rate_hz);
        trace.total_n.push_back(both);
        push(trace.left_n, plan.feet_known, left);
        push(trace.right_n, plan.feet_known, right);
        const bool has_left = plan.feet_known && left >= floor_n;
        const bool has_right = plan.feet_known && right >= floor_n;
        push(trace.left_x_m, has_left, left_x + cop_noise(std::max(left, floor_n)));
        push(trace.left_y_m, has_left, foot_y + cop_noise(std::max(left, floor_n)));
        push(trace.right_x_m, has_right, right_x + cop_noise(std::max(right, floor_n)));
        push(trace.right_y_m, has_right, foot_y + cop_noise(std::max(right, floor_n)));
        const double total_n = std::max(both, floor_n);
        push(trace.cop_x_m, both >= floor_n,
             (left * left_x + right * right_x) / total_n + cop_noise(total_n));
        push(trace.cop_y_m, both >= floor_n, foot_y + cop_noise(total_n));
        trace.trigger.push_back(track.trigger[i]);
        trace.bridged.push_back(0);
    }
}

}  // namespace footing::testing
