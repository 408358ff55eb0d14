#include "analysis/report/drawn_sample.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

constexpr double window_s = 0.025;
/// Of the body weight: below it nobody stands there, and there is no share.
constexpr double quiet_load_part = 0.05;

struct Span {
    std::size_t from;
    std::size_t to;
};

/// The instants around `sample`, as many before as after; cut short at the ends of the trace on both sides
/// alike.
Span around(const LoadTrace& trace, std::size_t sample) {
    const auto half = static_cast<std::size_t>(std::max(0.0, 0.5 * window_s * trace.rate_hz));
    const std::size_t reach = std::min({half, sample, trace.size() - 1 - sample});
    return {sample - reach, sample + reach + 1};
}

}  // namespace

double drawn_share(const LessonResult& lesson, std::size_t sample) {
    const LoadTrace& trace = lesson.trace;
    if (sample >= std::min({trace.size(), trace.left_n.size(), trace.right_n.size()})) return unknown;
    if (!known(trace.left_n[sample] + trace.right_n[sample])) return unknown;
    const Span span = around(trace, sample);
    double left_n = 0.0;
    double right_n = 0.0;
    double count = 0.0;
    for (std::size_t i = span.from; i < span.to; ++i) {
        if (!known(trace.left_n[i]) || !known(trace.right_n[i])) continue;
        left_n += trace.left_n[i];
        right_n += trace.right_n[i];
        count += 1.0;
    }
    const double sum_n = left_n + right_n;
    if (!std::isfinite(sum_n) || sum_n <= quiet_load_part * lesson.body_weight_n.value_or(0.0) * count)
        return unknown;
    const double share = (lesson.facts.hand == Hand::right ? left_n : right_n) / sum_n;
    return std::clamp(share, 0.0, 1.0);
}

std::optional<PointM> drawn_cop(const LoadTrace& trace, std::size_t sample) {
    if (sample >= std::min({trace.size(), trace.cop_x_m.size(), trace.cop_y_m.size()})) return std::nullopt;
    if (!known(trace.cop_x_m[sample]) || !known(trace.cop_y_m[sample])) return std::nullopt;
    const Span span = around(trace, sample);
    PointM sum;
    double count = 0.0;
    for (std::size_t i = span.from; i < span.to; ++i) {
        if (!known(trace.cop_x_m[i]) || !known(trace.cop_y_m[i])) continue;
        sum.x_m += trace.cop_x_m[i];
        sum.y_m += trace.cop_y_m[i];
        count += 1.0;
    }
    return PointM{sum.x_m / count, sum.y_m / count};
}

}  // namespace footing
