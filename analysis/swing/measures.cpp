#include "analysis/swing/measures.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/swing/smoothness.h"

namespace footing {

namespace {

constexpr double smoothness_rate_hz = 100.0;

}  // namespace

std::optional<Tempo> measure_tempo(const SwingEvents& events) {
    if (!events.takeaway || !events.top || !events.impact) return std::nullopt;
    Tempo tempo;
    tempo.backswing_s = events.top->time_s - events.takeaway->time_s;
    tempo.downswing_s = events.impact->time_s - events.top->time_s;
    if (tempo.backswing_s <= 0.0 || tempo.downswing_s <= 0.0) return std::nullopt;
    tempo.ratio = tempo.backswing_s / tempo.downswing_s;
    return tempo;
}

std::optional<VerticalLoad> measure_vertical(const SwingMotion& motion, const SwingEvents& events,
                                             double body_weight_n) {
    if (!events.takeaway || body_weight_n <= 0.0 || (!events.finish && !events.impact)) return std::nullopt;
    const Event& last = events.finish ? *events.finish : *events.impact;
    const auto begin =
        motion.smooth_load.begin() + static_cast<std::ptrdiff_t>(motion.entry(events.takeaway->time_s));
    const auto end = motion.smooth_load.begin() + static_cast<std::ptrdiff_t>(motion.entry(last.time_s));
    if (begin >= end) return std::nullopt;
    const auto [lowest, highest] = std::minmax_element(begin, end);
    const double to_body_weights = motion.address_load_n / body_weight_n;
    return VerticalLoad{*highest * to_body_weights, *lowest * to_body_weights,
                        motion.time_s(static_cast<double>(highest - motion.smooth_load.begin()))};
}

std::optional<Smoothness> measure_smoothness(const SwingMotion& motion, const SwingEvents& events) {
    if (!events.takeaway || !events.impact) return std::nullopt;
    const std::size_t step =
        std::max<std::size_t>(1, static_cast<std::size_t>(motion.rate_hz / smoothness_rate_hz + 1e-6));
    const double rate_hz = motion.rate_hz / static_cast<double>(step);
    std::vector<double> speed;
    const std::size_t end = motion.entry(events.impact->time_s);
    for (std::size_t i = motion.entry(events.takeaway->time_s); i + step <= end; i += step)
        speed.push_back(std::abs(motion.smooth_share[i + step] - motion.smooth_share[i]) * rate_hz);
    const Smoothness smoothness{spectral_arc_length(speed, rate_hz), log_dimensionless_jerk(speed, rate_hz)};
    if (std::isnan(smoothness.sparc) || std::isnan(smoothness.ldlj)) return std::nullopt;
    return smoothness;
}

}  // namespace footing
