#include "acquisition/device/golfer_motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "acquisition/device/golfer_chance.h"

namespace footing {

namespace {

Motion minimum_jerk(double u, double duration_s) {
    const double u2 = u * u;
    return {u2 * u * (10.0 + u * (6.0 * u - 15.0)),
            60.0 * u * (1.0 + u * (2.0 * u - 3.0)) / (duration_s * duration_s)};
}

}  // namespace

void MotionPath::step(double from_s, double to_s, double by) {
    movements_.push_back({Shape::step, from_s, to_s, by, 0.0});
}

void MotionPath::swell(double from_s, double to_s, double by) {
    const double middle = 0.5 * (from_s + to_s);
    step(from_s, middle, by);
    step(middle, to_s, -by);
}

void MotionPath::wave(double from_s, double to_s, double by, double frequency_hz) {
    movements_.push_back({Shape::wave, from_s, to_s, by, frequency_hz});
}

void MotionPath::seal() {
    double last = 0.0;
    for (const Movement& movement : movements_) last = std::max(last, movement.to_s);
    const auto seconds = static_cast<std::size_t>(std::ceil(last)) + 1;
    under_way_.assign(seconds, {});
    done_before_.assign(seconds, 0.0);
    for (std::size_t i = 0; i < movements_.size(); ++i) {
        const Movement& movement = movements_[i];
        const auto first = static_cast<std::size_t>(std::max(0.0, std::floor(movement.from_s)));
        const auto end = static_cast<std::size_t>(std::ceil(movement.to_s));
        for (std::size_t second = first; second < end; ++second) under_way_[second].push_back(i);
        if (movement.shape == Shape::step) {
            for (std::size_t second = end; second < seconds; ++second) done_before_[second] += movement.by;
        }
    }
}

Motion MotionPath::of(const Movement& movement, double time_s) {
    if (time_s <= movement.from_s) return {};
    const double duration = movement.to_s - movement.from_s;
    if (time_s >= movement.to_s) return {movement.shape == Shape::step ? movement.by : 0.0, 0.0};
    const double u = (time_s - movement.from_s) / duration;
    if (movement.shape == Shape::step) {
        const Motion unit = minimum_jerk(u, duration);
        return {movement.by * unit.position, movement.by * unit.acceleration};
    }
    const double k = std::numbers::pi / duration;
    const double w = 2.0 * std::numbers::pi * movement.frequency_hz;
    const double swell = std::sin(std::numbers::pi * u) * std::sin(std::numbers::pi * u);
    const double swell_speed = k * std::sin(2.0 * std::numbers::pi * u);
    const double swell_acceleration = 2.0 * k * k * std::cos(2.0 * std::numbers::pi * u);
    const double angle = w * (time_s - movement.from_s);
    const double acceleration = swell_acceleration * std::sin(angle) +
                                2.0 * swell_speed * w * std::cos(angle) - swell * w * w * std::sin(angle);
    return {movement.by * swell * std::sin(angle), movement.by * acceleration};
}

Motion MotionPath::at(double time_s) const {
    if (under_way_.empty() || time_s < 0.0) return {};
    const std::size_t second = std::min(static_cast<std::size_t>(time_s), under_way_.size() - 1);
    Motion sum{done_before_[second], 0.0};
    for (const std::size_t i : under_way_[second]) {
        const Motion one = of(movements_[i], time_s);
        sum.position += one.position;
        sum.acceleration += one.acceleration;
    }
    return sum;
}

Unrest::Unrest(double rms, double lowest_hz, double corner_hz, double highest_hz, std::size_t lines,
               std::uint64_t seed) {
    Chance chance(seed);
    const double octaves = std::log(highest_hz / lowest_hz);
    double power = 0.0;
    for (std::size_t i = 0; i < lines; ++i) {
        const double place = (static_cast<double>(i) + chance.between(0.2, 0.8)) / static_cast<double>(lines);
        const double frequency = lowest_hz * std::exp(place * octaves);
        const double amplitude = frequency > corner_hz ? corner_hz / frequency : 1.0;
        power += 0.5 * amplitude * amplitude;
        lines_.push_back(
            {amplitude, 2.0 * std::numbers::pi * frequency, chance.between(0.0, 2.0 * std::numbers::pi)});
    }
    for (Line& line : lines_) line.amplitude *= rms / std::sqrt(power);
}

Motion Unrest::at(double time_s) const {
    Motion sum;
    for (const Line& line : lines_) {
        const double value = line.amplitude * std::sin(line.angular_frequency * time_s + line.phase);
        sum.position += value;
        sum.acceleration -= value * line.angular_frequency * line.angular_frequency;
    }
    return sum;
}

}  // namespace footing
