#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"

namespace footing::testing {

/// One sampling instant of a trace, as it came.
[[nodiscard]] inline LoadSample sample_at(const LoadTrace& trace, std::size_t i) {
    LoadSample sample;
    sample.total_n = trace.total_n[i];
    sample.left_n = trace.left_n[i];
    sample.right_n = trace.right_n[i];
    if (known(trace.cop_x_m[i])) sample.cop = PointM{trace.cop_x_m[i], trace.cop_y_m[i]};
    if (known(trace.left_x_m[i])) sample.left_cop = PointM{trace.left_x_m[i], trace.left_y_m[i]};
    if (known(trace.right_x_m[i])) sample.right_cop = PointM{trace.right_x_m[i], trace.right_y_m[i]};
    return sample;
}

/// The part from `from` to before `to`; its times begin at zero. Plates only.
[[nodiscard]] inline LoadTrace slice(const LoadTrace& trace, std::size_t from, std::size_t to) {
    LoadTrace part;
    part.rate_hz = trace.rate_hz;
    const auto cut = [&](const auto& column) {
        return std::remove_cvref_t<decltype(column)>(column.begin() + static_cast<std::ptrdiff_t>(from),
                                                     column.begin() + static_cast<std::ptrdiff_t>(to));
    };
    part.time_s = cut(trace.time_s);
    for (double& time_s : part.time_s) time_s -= trace.time_s[from];
    part.total_n = cut(trace.total_n);
    part.left_n = cut(trace.left_n);
    part.right_n = cut(trace.right_n);
    part.cop_x_m = cut(trace.cop_x_m);
    part.cop_y_m = cut(trace.cop_y_m);
    part.left_x_m = cut(trace.left_x_m);
    part.left_y_m = cut(trace.left_y_m);
    part.right_x_m = cut(trace.right_x_m);
    part.right_y_m = cut(trace.right_y_m);
    part.trigger = cut(trace.trigger);
    part.bridged = cut(trace.bridged);
    return part;
}

}  // namespace footing::testing
