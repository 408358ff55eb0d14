#include "analysis/swing/share_curve.h"

#include <algorithm>
#include <cmath>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/pressure/trace_stretch.h"

namespace footing {

namespace {
constexpr double smoothing_hz = 10.0;
constexpr double margin_s = 0.5;
constexpr std::size_t impact_place = 2;
}  // namespace

std::optional<Landmarks> landmarks_of(const SwingEvents& events) {
    if (!events.takeaway || !events.turnaround || !events.impact || !events.finish) return std::nullopt;
    const Landmarks marks{events.takeaway->time_s, events.turnaround->time_s, events.impact->time_s,
                          events.finish->time_s};
    for (std::size_t i = 1; i < marks.size(); ++i) {
        if (!(marks[i] > marks[i - 1])) return std::nullopt;
    }
    return marks;
}

CurveAxis mean_axis(std::span<const Landmarks> swings, std::size_t points) {
    CurveAxis axis;
    if (swings.empty() || points < 2) return axis;
    for (const Landmarks& swing : swings) {
        for (std::size_t i = 0; i < swing.size(); ++i)
            axis.landmark_s[i] += (swing[i] - swing[impact_place]) / static_cast<double>(swings.size());
    }
    const double length_s = axis.landmark_s.back() - axis.landmark_s.front();
    for (std::size_t i = 0; i < points; ++i)
        axis.time_s.push_back(axis.landmark_s.front() +
                              length_s * static_cast<double>(i) / static_cast<double>(points - 1));
    return axis;
}

double warped_s(const CurveAxis& axis, const Landmarks& swing, double axis_s) {
    std::size_t piece = 0;
    while (piece + 2 < swing.size() && axis_s > axis.landmark_s[piece + 1]) ++piece;
    const double length_s = axis.landmark_s[piece + 1] - axis.landmark_s[piece];
    const double part = length_s > 0.0 ? (axis_s - axis.landmark_s[piece]) / length_s : 0.0;
    return swing[piece] + part * (swing[piece + 1] - swing[piece]);
}

ShareCourse::ShareCourse(const LoadTrace& trace, Hand hand, double from_s, double to_s)
    : rate_hz_(trace.rate_hz) {
    const std::size_t begin = edge_at(trace, from_s - margin_s);
    const std::size_t end = edge_at(trace, to_s + margin_s);
    first_s_ = static_cast<double>(begin) / rate_hz_;
    for (std::size_t i = begin; i < end; ++i)
        share_.push_back(lead_share(trace.left_n[i], trace.right_n[i], hand));
    const double cutoff_hz = std::min(smoothing_hz, 0.2 * rate_hz_);
    zero_lag_filter_known(butterworth_low_pass(2, cutoff_for_two_passes(2, cutoff_hz, rate_hz_), rate_hz_),
                          share_);
}

double ShareCourse::at(double time_s) const {
    const double place = (time_s - first_s_) * rate_hz_;
    if (share_.size() < 2 || !(place >= 0.0) || place > static_cast<double>(share_.size() - 1))
        return unknown;
    const auto before = std::min(static_cast<std::size_t>(place), share_.size() - 2);
    const double part = place - static_cast<double>(before);
    return share_[before] + part * (share_[before + 1] - share_[before]);
}

std::vector<double> share_curve(const LoadTrace& trace, Hand hand, const Landmarks& swing,
                                const CurveAxis& axis) {
    const ShareCourse course(trace, hand, swing.front(), swing.back());
    std::vector<double> curve;
    curve.reserve(axis.time_s.size());
    for (const double axis_s : axis.time_s) curve.push_back(course.at(warped_s(axis, swing, axis_s)));
    return curve;
}

}  // namespace footing
