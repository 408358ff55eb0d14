#include "analysis/pressure/trace_stretch.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

std::size_t nearest(const LoadTrace& trace, double time_s, std::size_t most) {
    return static_cast<std::size_t>(
        std::clamp(std::round(time_s * trace.rate_hz), 0.0, static_cast<double>(most)));
}

}  // namespace

std::size_t entry_at(const LoadTrace& trace, double time_s) {
    return nearest(trace, time_s, trace.size() - 1);
}

std::size_t edge_at(const LoadTrace& trace, double time_s) {
    return nearest(trace, time_s, trace.size());
}

TraceStretch stretch_between(const LoadTrace& trace, double from_s, double to_s) {
    if (trace.size() == 0) return {};
    const std::size_t begin = entry_at(trace, from_s);
    return {begin, std::max(begin, entry_at(trace, to_s)) + 1};
}

}  // namespace footing
