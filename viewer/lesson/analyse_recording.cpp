#include "viewer/lesson/analyse_recording.h"

#include <algorithm>
#include <utility>

#include "analysis/swing/analyse_swings.h"
#include "viewer/lesson/read_loads.h"

namespace footing {

Result<LessonResult> analyse_recording(const std::string& path, const AnalysisRequest& request) {
    Result<RecordedLoads> read = read_loads(path);
    if (!read) return read.problem();
    RecordedLoads& loads = read.value();

    LessonResult result;
    result.facts = std::move(loads.facts);
    result.facts.student = request.student;
    if (request.hand) result.facts.hand = *request.hand;
    result.band = request.band;
    result.rate_hz = loads.trace.rate_hz;
    result.duration_s = loads.trace.size() > 0 ? loads.trace.time_s.back() : 0.0;

    SwingOptions options;
    options.share.gain = ratio_relative_u(loads.calibration);
    options.share.zero_n = std::max(options.share.zero_n, loads.zero_u_n);
    result.swings = analyse_swings(loads.trace, result.facts.hand, request.band, options);
    if (!loads.calibration.only_ratios) result.body_weight_n = body_weight_n(loads.trace, options);
    result.trace = std::move(loads.trace);
    return result;
}

}  // namespace footing
