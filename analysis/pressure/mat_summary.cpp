#include "analysis/pressure/mat_summary.h"

#include <algorithm>

namespace footing {

namespace {
constexpr double least_other_n = 2.0;  ///< less is specks
}

MatSummary mat_summary(const LoadTrace& trace) {
    MatSummary summary;
    if (!(trace.rate_hz > 0.0)) return summary;
    const double step_s = 1.0 / trace.rate_hz;
    for (const MatReading& one : trace.mat) {
        if (one.clipped > 0) summary.clipped_s += step_s;
        summary.most_clipped = std::max<std::size_t>(summary.most_clipped, one.clipped);
        if (one.told == FeetTold::nobody) continue;
        summary.stood_s += step_s;
        if (one.told == FeetTold::one_area) summary.one_area_s += step_s;
        if (one.told == FeetTold::in_a_line) summary.in_a_line_s += step_s;
        const auto other_n = static_cast<double>(one.other_n);
        if (other_n >= least_other_n) summary.other_s += step_s;
        summary.most_other_n = std::max(summary.most_other_n, other_n);
    }
    return summary;
}

const char* told_name(FeetTold told) {
    return told == FeetTold::areas ? "areas" : "midline";
}

const char* midline_reason(FeetTold told) {
    switch (told) {
        case FeetTold::areas:
            return "";
        case FeetTold::nobody:
            return "too little load to look for feet";
        case FeetTold::one_area:
            return "only one area bore enough to be a foot";
        case FeetTold::in_a_line:
            return "one foot was ahead of the other, not beside it";
    }
    return "";
}

}  // namespace footing
