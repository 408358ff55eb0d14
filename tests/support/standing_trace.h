#pragma once

#include <cstddef>
#include <functional>

#include "analysis/pressure/load_trace.h"

namespace footing::testing {

/// Something by the time in s.
using Course = std::function<double(double)>;

/// Somebody on two plates, their feet 0.4 m apart: the left foot's share of the total load, the load in N,
/// and how far each foot's CoP lies ahead of its middle.
inline LoadTrace standing_trace(double rate_hz, double end_s, const Course& left_share, const Course& load_n,
                                double forward_m = 0.0) {
    LoadTrace trace;
    trace.rate_hz = rate_hz;
    for (std::size_t i = 0; i < static_cast<std::size_t>(end_s * rate_hz); ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        const double share = left_share(t);
        trace.time_s.push_back(t);
        trace.total_n.push_back(load_n(t));
        trace.left_n.push_back(share * load_n(t));
        trace.right_n.push_back((1.0 - share) * load_n(t));
        trace.left_x_m.push_back(-0.2);
        trace.right_x_m.push_back(0.2);
        trace.cop_x_m.push_back(0.2 - 0.4 * share);
        for (auto* y_m : {&trace.left_y_m, &trace.right_y_m, &trace.cop_y_m}) y_m->push_back(forward_m);
        trace.trigger.push_back(0);
        trace.bridged.push_back(0);
    }
    return trace;
}

}  // namespace footing::testing
