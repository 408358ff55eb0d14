#include "analysis/swing/mass_path.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "analysis/pressure/lead_share.h"
#include "analysis/pressure/trace_stretch.h"

namespace footing {

namespace {
constexpr double margin_s = 3.0;
}

MassPath mass_path(const LoadTrace& trace, const Pendulum& pendulum, double from_s, double to_s) {
    MassPath path;
    if (trace.size() == 0 || !(trace.rate_hz > 0.0)) return path;
    const auto is_known = [&](std::size_t i) { return known(trace.cop_x_m[i]) && known(trace.cop_y_m[i]); };
    const std::size_t from = entry_at(trace, from_s);
    const std::size_t to = entry_at(trace, to_s);
    for (std::size_t i = from; i <= to; ++i) {
        if (!is_known(i)) return path;
    }
    std::size_t begin = from;
    std::size_t end = to + 1;
    while (begin > entry_at(trace, from_s - margin_s) && is_known(begin - 1)) --begin;
    while (end <= entry_at(trace, to_s + margin_s) && is_known(end)) ++end;
    const auto part = [&](const std::vector<double>& column) {
        return centre_of_mass_from_cop(std::span(column).subspan(begin, end - begin), trace.rate_hz,
                                       pendulum);
    };
    const std::vector<double> x_m = part(trace.cop_x_m);
    const std::vector<double> y_m = part(trace.cop_y_m);
    path.first = from;
    for (std::size_t i = from; i <= to; ++i) path.place.push_back({x_m[i - begin], y_m[i - begin]});
    return path;
}

SwingCop mass_at_events(const LoadTrace& trace, Hand hand, const Pendulum& pendulum,
                        const SwingEvents& events) {
    SwingCop at_events;
    const auto at = [&](const std::optional<Event>& event) -> std::optional<PointM> {
        if (!event) return std::nullopt;
        const MassPath path = mass_path(trace, pendulum, event->time_s, event->time_s);
        if (path.place.empty()) return std::nullopt;
        return to_stance_frame(path.place.front(), hand);
    };
    at_events.address = at(events.address);
    at_events.top = at(events.top);
    at_events.impact = at(events.impact);
    at_events.finish = at(events.finish);
    return at_events;
}

}  // namespace footing
