#include "analysis/swing/cop_motion.h"

#include <algorithm>
#include <cmath>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/pressure/trace_stretch.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

constexpr double smoothing_hz = 10.0;
constexpr double margin_s = 0.5;
/// The distance from the mean grows with the time looked at, so less than the whole address window would look
/// steadier than it is.
constexpr double shortest_sway_s = 0.5;
constexpr double least_known = 0.9;

}  // namespace

CopMotion cop_motion(const LoadTrace& trace, Hand hand, double from_s, double to_s) {
    CopMotion motion;
    motion.rate_hz = trace.rate_hz;
    const std::size_t begin = edge_at(trace, from_s);
    const std::size_t end = std::max(begin, edge_at(trace, to_s));
    const std::size_t first = std::min(begin, edge_at(trace, from_s - margin_s));
    const std::size_t last = std::max(end, edge_at(trace, to_s + margin_s));
    const double cutoff_hz = std::min(smoothing_hz, 0.2 * trace.rate_hz);
    const auto sections =
        butterworth_low_pass(2, cutoff_for_two_passes(2, cutoff_hz, trace.rate_hz), trace.rate_hz);
    const auto smoothed = [&](const std::vector<double>& column) {
        std::vector<double> part(column.begin() + static_cast<std::ptrdiff_t>(first),
                                 column.begin() + static_cast<std::ptrdiff_t>(last));
        zero_lag_filter_known(sections, part);
        return std::vector<double>(part.begin() + static_cast<std::ptrdiff_t>(begin - first),
                                   part.begin() + static_cast<std::ptrdiff_t>(end - first));
    };
    motion.x_m = smoothed(trace.cop_x_m);
    for (double& x_m : motion.x_m) x_m = stance_x_m(x_m, hand);
    motion.y_m = smoothed(trace.cop_y_m);
    return motion;
}

std::optional<CopTravel> measure_cop_travel(const LoadTrace& trace, Hand hand, const SwingEvents& events) {
    if (!events.address || !events.finish) return std::nullopt;
    const double from_s = address_span(*events.address).to_s;
    const CopMotion motion = cop_motion(trace, hand, from_s, events.finish->time_s);
    std::vector<PointM> way;
    for (std::size_t i = 0; i < motion.x_m.size(); ++i) {
        if (known(motion.x_m[i]) && known(motion.y_m[i])) way.push_back({motion.x_m[i], motion.y_m[i]});
    }
    if (way.size() < 2 ||
        static_cast<double>(way.size()) < least_known * static_cast<double>(motion.x_m.size()))
        return std::nullopt;
    CopTravel travel;
    for (std::size_t i = 1; i < way.size(); ++i)
        travel.path_m += std::hypot(way[i].x_m - way[i - 1].x_m, way[i].y_m - way[i - 1].y_m);
    const auto x = std::ranges::minmax(way, {}, &PointM::x_m);
    const auto y = std::ranges::minmax(way, {}, &PointM::y_m);
    travel.range_x_m = x.max.x_m - x.min.x_m;
    travel.range_y_m = y.max.y_m - y.min.y_m;
    return travel;
}

std::optional<ShortSway> measure_short_sway(const LoadTrace& trace, Hand hand, double from_s, double to_s,
                                            bool feet_known) {
    const CopMotion motion = cop_motion(trace, hand, from_s, to_s);
    const double window_s = static_cast<double>(motion.x_m.size()) / trace.rate_hz;
    if (window_s < shortest_sway_s - 1e-9 || motion.x_m.size() < 8) return std::nullopt;
    if (!std::ranges::all_of(motion.x_m, known) || !std::ranges::all_of(motion.y_m, known))
        return std::nullopt;
    const double middle_x_m = mean(motion.x_m);
    const double middle_y_m = mean(motion.y_m);
    double squares = 0.0;
    for (std::size_t i = 0; i < motion.x_m.size(); ++i) {
        squares += (motion.x_m[i] - middle_x_m) * (motion.x_m[i] - middle_x_m) +
                   (motion.y_m[i] - middle_y_m) * (motion.y_m[i] - middle_y_m);
    }
    ShortSway sway;
    sway.window_s = window_s;
    sway.cop_rms_m = std::sqrt(squares / static_cast<double>(motion.x_m.size()));
    if (feet_known) {
        std::vector<double> share;
        for (std::size_t i = edge_at(trace, from_s); i < edge_at(trace, to_s); ++i) {
            const double value = lead_share(trace.left_n[i], trace.right_n[i], hand);
            if (known(value)) share.push_back(value);
        }
        if (share.size() > 2) sway.share_sd = standard_deviation(share);
    }
    return sway;
}

}  // namespace footing
