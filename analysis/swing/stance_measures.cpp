#include "analysis/swing/stance_measures.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

#include "analysis/pressure/trace_stretch.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

std::span<const MatReading> during(const LoadTrace& trace, const EventSpan& span) {
    const TraceStretch stretch = stretch_between(trace, span.from_s, span.to_s);
    return std::span(trace.mat).subspan(stretch.begin, stretch.size());
}

/// Mean of what is known.
template <typename Value>
std::optional<double> mean_of(std::span<const MatReading> readings, Value value) {
    double sum = 0.0;
    double count = 0.0;
    for (const MatReading& one : readings) {
        const auto number = static_cast<double>(value(one));
        if (!known(number)) continue;
        sum += number;
        count += 1.0;
    }
    return count > 0.0 ? std::optional(sum / count) : std::nullopt;
}

bool on_a_mat(const LoadTrace& trace) {
    return !trace.mat.empty() && trace.mat.size() == trace.size() && trace.rate_hz > 0.0;
}

}  // namespace

std::optional<SwingStance> measure_stance(const LoadTrace& trace, const SwingEvents& events) {
    if (!on_a_mat(trace) || !events.address) return std::nullopt;
    const auto address = during(trace, address_span(*events.address));
    SwingStance stance;
    std::ptrdiff_t most = 0;
    for (const FeetTold told : {FeetTold::areas, FeetTold::one_area, FeetTold::in_a_line, FeetTold::nobody}) {
        const std::ptrdiff_t count = std::ranges::count(address, told, &MatReading::told);
        if (count <= most) continue;
        most = count;
        stance.told = told;
    }
    if (stance.told != FeetTold::areas) return stance;
    stance.width_m = mean_of(address, [](const MatReading& one) { return one.stance_width_m; });
    stance.left_toe_out_rad = mean_of(address, [](const MatReading& one) { return one.left.toe_out_rad; });
    stance.right_toe_out_rad = mean_of(address, [](const MatReading& one) { return one.right.toe_out_rad; });
    return stance;
}

std::optional<SwingFeet> measure_feet(const LoadTrace& trace, const SwingEvents& events) {
    if (!on_a_mat(trace)) return std::nullopt;
    SwingFeet feet;
    const auto take = [&](std::optional<double> FootShares::*event, std::span<const MatReading> readings) {
        feet.left.toes.*event = mean_of(readings, [](const MatReading& one) { return one.left.toe_share; });
        feet.left.outside.*event =
            mean_of(readings, [](const MatReading& one) { return one.left.outside_share; });
        feet.right.toes.*event = mean_of(readings, [](const MatReading& one) { return one.right.toe_share; });
        feet.right.outside.*event =
            mean_of(readings, [](const MatReading& one) { return one.right.outside_share; });
    };
    if (events.address) take(&FootShares::address, during(trace, address_span(*events.address)));
    if (events.top) take(&FootShares::top, during(trace, instant_span(*events.top)));
    if (events.impact) take(&FootShares::impact, during(trace, instant_span(*events.impact)));
    if (events.finish) take(&FootShares::finish, during(trace, finish_span(*events.finish)));
    return feet;
}

}  // namespace footing
