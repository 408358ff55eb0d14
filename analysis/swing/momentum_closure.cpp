#include "analysis/swing/momentum_closure.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "analysis/pressure/trace_stretch.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

/// Swaying of the load within this long is one value, not many.
constexpr double load_sway_alike_s = 0.25;
/// How fast the centre of mass may still rise or sink at the ends, standing still to the eye [CP].
constexpr double rest_speed_m_s = 0.03;

struct RestingLoad {
    double mean_n = 0.0;
    double u_n = 0.0;
};

std::optional<RestingLoad> resting_load(std::span<const double> load_n, double rate_hz) {
    if (load_n.size() < 4) return std::nullopt;
    const double count = static_cast<double>(load_n.size());
    const double independent = std::max(1.0, count / rate_hz / load_sway_alike_s);
    return RestingLoad{mean(load_n), standard_deviation(load_n) / std::sqrt(independent)};
}

}  // namespace

std::optional<MomentumClosure> measure_momentum(const LoadTrace& trace, const SwingEvents& events) {
    if (!events.address || !events.finish) return std::nullopt;
    const auto part = [&](double from_s, double to_s) {
        const std::size_t begin = edge_at(trace, from_s);
        return std::span(trace.total_n).subspan(begin, std::max(begin, edge_at(trace, to_s)) - begin);
    };
    const EventSpan address = address_span(*events.address);
    const auto rest = resting_load(part(address.from_s, address.to_s), trace.rate_hz);
    if (!rest || !(rest->mean_n > 0.0)) return std::nullopt;
    MomentumClosure closure;
    closure.from_s = events.address->time_s;
    closure.to_s = std::min(events.finish->time_s + 0.5 * finish_mean_s, trace.time_s.back());
    const std::span<const double> spell = part(closure.from_s, closure.to_s);
    const double length_s = closure.to_s - closure.from_s;
    if (spell.size() < 8 || !(length_s > 0.0)) return std::nullopt;
    // Trapezoids: half of the first and of the last.
    double sum_n = -0.5 * (spell.front() + spell.back());
    for (const double load_n : spell) sum_n += load_n;
    closure.residual_bw = sum_n / static_cast<double>(spell.size() - 1) / rest->mean_n - 1.0;
    const double by_speed = std::sqrt(2.0) * rest_speed_m_s / (standard_gravity_m_s2 * length_s);
    closure.tolerance_bw = 2.0 * std::hypot(rest->u_n / rest->mean_n, by_speed);
    closure.verdict = std::abs(closure.residual_bw) <= closure.tolerance_bw ? Closure::closed : Closure::open;
    return closure;
}

}  // namespace footing
