#include "analysis/pressure/mat_midline.h"

#include <algorithm>

namespace footing {

namespace {
constexpr std::size_t look_every_frames = 16;
constexpr double weight_of_a_frame = 1.0 / 64.0;
/// Two feet stand at least this far apart, middle to middle; less is one foot with its heel and forefoot.
constexpr double least_distance_m = 0.12;
/// The valley between two feet bears at most this part of the smaller foot's highest column.
constexpr double deepest_part = 0.25;
}  // namespace

MatMidline::MatMidline(std::size_t columns, double pitch_m)
    : profile_n_(columns, 0.0), pitch_m_(pitch_m), first_right_(columns / 2) {}

void MatMidline::follow(std::span<const double> column_n, double total_n) {
    if (column_n.size() != profile_n_.size() || total_n <= 0.0) return;
    for (std::size_t i = 0; i < profile_n_.size(); ++i)
        profile_n_[i] += weight_of_a_frame * (column_n[i] - profile_n_[i]);
    if (frames_++ % look_every_frames == 0) find_valley();
}

void MatMidline::find_valley() {
    double total = 0.0;
    double moment = 0.0;
    for (std::size_t i = 0; i < profile_n_.size(); ++i) {
        total += profile_n_[i];
        moment += profile_n_[i] * static_cast<double>(i);
    }
    if (total <= 0.0) return;

    double best_separation = 0.0;
    double best_left_mean = 0.0;
    double best_right_mean = 0.0;
    double left_load = 0.0;
    double left_moment = 0.0;
    for (std::size_t split = 1; split < profile_n_.size(); ++split) {
        left_load += profile_n_[split - 1];
        left_moment += profile_n_[split - 1] * static_cast<double>(split - 1);
        const double right_load = total - left_load;
        if (left_load <= 0.0 || right_load <= 0.0) continue;
        const double left_mean = left_moment / left_load;
        const double right_mean = (moment - left_moment) / right_load;
        const double separation =
            left_load * right_load * (right_mean - left_mean) * (right_mean - left_mean);
        if (separation > best_separation) {
            best_separation = separation;
            best_left_mean = left_mean;
            best_right_mean = right_mean;
        }
    }
    if ((best_right_mean - best_left_mean) * pitch_m_ < least_distance_m) return;

    const auto column_of = [&](double mean) { return static_cast<std::ptrdiff_t>(mean + 0.5); };
    const auto left_foot = profile_n_.begin() + column_of(best_left_mean);
    const auto right_foot = profile_n_.begin() + column_of(best_right_mean);
    const double lowest = *std::min_element(left_foot, right_foot + 1);
    const auto valley_begin = std::find(left_foot, right_foot + 1, lowest);
    auto valley_end = valley_begin;
    while (valley_end != right_foot && *valley_end <= lowest) ++valley_end;
    const double left_peak = *std::max_element(profile_n_.begin(), valley_begin + 1);
    const double right_peak = *std::max_element(valley_begin, profile_n_.end());
    if (lowest > deepest_part * std::min(left_peak, right_peak)) return;
    const auto middle = (valley_begin - profile_n_.begin()) + (valley_end - valley_begin + 1) / 2;
    first_right_ = static_cast<std::size_t>(std::max<std::ptrdiff_t>(middle, 1));
}

}  // namespace footing
