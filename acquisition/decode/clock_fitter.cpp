#include "acquisition/decode/clock_fitter.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

constexpr double ns_per_us = 1000.0;
/// Foot over body of the arrivals of a stretch of 125 frames or more: 0.16 for exponential delays, 0.14 for
/// bursts, 0.41 for both together, 0.48 for exponential delays in a queue; 0.76 and more for a bell.
/// Simulated.
constexpr double foot_of_a_sharp_edge = 0.55;
/// Before this many points the slope of the clocks is only a guess.
constexpr std::size_t points_of_a_known_slope = 16;

/// Two stretches as one. `slope`: of excess over device time.
ClockPoint joined(const ClockPoint& a, const ClockPoint& b, double slope) {
    const double frames = a.frames + b.frames;
    ClockPoint point;
    point.frames = frames;
    point.device_ns = (a.device_ns * a.frames + b.device_ns * b.frames) / frames;
    point.mid_excess = (a.mid_excess * a.frames + b.mid_excess * b.frames) / frames;
    point.least_excess = std::min(a.least_excess + slope * (point.device_ns - a.device_ns),
                                  b.least_excess + slope * (point.device_ns - b.device_ns));
    return point;
}

}  // namespace

std::int64_t ClockLine::host_time_ns(std::uint64_t device_time_us) const {
    if (knots.empty()) return 0;
    const auto later = std::lower_bound(
        knots.begin(), knots.end(), device_time_us,
        [](const ClockKnot& knot, std::uint64_t time_us) { return knot.device_time_us < time_us; });
    const auto apart_ns = [&](const ClockKnot& knot) {
        return static_cast<double>(static_cast<std::int64_t>(device_time_us - knot.device_time_us)) *
               ns_per_us;
    };
    if (later == knots.begin()) return later->host_time_ns + std::llround(slope * apart_ns(*later));
    const ClockKnot& before = *(later - 1);
    if (later == knots.end()) return before.host_time_ns + std::llround(slope * apart_ns(before));
    const double whole = static_cast<double>(later->device_time_us - before.device_time_us) * ns_per_us;
    return before.host_time_ns + std::llround(apart_ns(before) / whole *
                                              static_cast<double>(later->host_time_ns - before.host_time_ns));
}

ClockFitter::ClockFitter() {
    points_.reserve(most_points);
    fit_points_.reserve(most_points + 1);
    earlier_knots_.reserve(most_knots_kept);
}

double ClockFitter::device_ns(std::uint64_t device_time_us) const {
    return static_cast<double>(static_cast<std::int64_t>(device_time_us - first_device_us_)) * ns_per_us;
}

void ClockFitter::take(std::uint64_t device_time_us, std::int64_t host_time_ns) {
    if (frames_ == 0) {
        first_device_us_ = device_time_us;
        first_host_ns_ = host_time_ns;
    }
    const double device = device_ns(device_time_us);
    const double excess = static_cast<double>(host_time_ns - first_host_ns_) - device;
    if (window_.frames() > 0 && device - window_.begins_ns() >= stretch_ns_) end_stretch();
    if (window_.frames() == 0) {
        const double slope = curve_.mean_slope();
        const bool known = points_.size() >= points_of_a_known_slope || std::abs(slope) > most_clock_error;
        window_.begin(device, known ? slope : 0.0);
        if (points_.empty()) curve_begins_ns_ = device;
    }
    window_.take(device, excess);
    newest_device_ns_ = device;
    ++frames_;
}

void ClockFitter::end_stretch() {
    const auto slope =
        points_.size() < points_of_a_known_slope ? ClockWindow::Slope::guessed : ClockWindow::Slope::known;
    const ClockWindow::Summary summary = window_.summary(slope);
    window_.begin(0.0, 0.0);
    spread_.foot_ns += summary.spread.foot_ns;
    spread_.body_ns += summary.spread.body_ns;
    spread_.square_ns2 += summary.spread.square_ns2;
    spread_.worst_late_ns = std::max(spread_.worst_late_ns, summary.spread.worst_late_ns);
    spread_.frames += summary.spread.frames;
    points_.push_back(summary.point);
    if (points_.size() == most_points) merge_points();
    fit();
}

void ClockFitter::merge_points() {
    const double slope = curve_.mean_slope();
    for (std::size_t i = 0; i + 1 < points_.size(); i += 2) {
        points_[i / 2] = joined(points_[i], points_[i + 1], slope);
    }
    points_.resize(points_.size() / 2);
    stretch_ns_ *= 2.0;
}

ArrivalEdge ClockFitter::edge() const {
    return spread_.foot_ns <= foot_of_a_sharp_edge * spread_.body_ns ? ArrivalEdge::least_delayed
                                                                     : ArrivalEdge::middle;
}

void ClockFitter::fit() {
    const ArrivalEdge wanted = edge();
    fit_points_.clear();
    for (const ClockPoint& point : points_) {
        const double y = wanted == ArrivalEdge::middle ? point.mid_excess : point.least_excess;
        fit_points_.push_back({point.device_ns, y, point.frames});
    }
    curve_.fit(fit_points_);
}

std::int64_t ClockFitter::fitted_ns(double device) const {
    return first_host_ns_ + std::llround(device + curve_.at(device));
}

std::int64_t ClockFitter::host_time_ns(std::uint64_t device_time_us) const {
    if (frames_ == 0) return 0;
    return fitted_ns(device_ns(device_time_us));
}

double ClockFitter::jitter_sd_ns() const {
    return spread_.frames > 1.0 ? std::sqrt(spread_.square_ns2 / (spread_.frames - 1.0)) : 0.0;
}

void ClockFitter::restart() {
    if (window_.frames() > 0) end_stretch();
    keep_knots();
    points_.clear();
    curve_ = ClockCurve{};
    stretch_ns_ = first_stretch_ns;
}

/// What is fitted so far becomes final. Where a device restarts beyond all measure, the room for its knots
/// ends and the last stretches stand for themselves by their raw stamps only.
void ClockFitter::keep_knots() {
    if (points_.empty()) return;
    const double first = curve_begins_ns_;
    const double length = newest_device_ns_ - first;
    const auto device_us = [&](double ns) {
        return first_device_us_ + static_cast<std::uint64_t>(std::llround(std::max(0.0, ns) / ns_per_us));
    };
    const auto add = [&](std::uint64_t at_us) {
        const bool later = earlier_knots_.empty() || at_us > earlier_knots_.back().device_time_us;
        if (later && earlier_knots_.size() < most_knots_kept) {
            earlier_knots_.push_back({at_us, fitted_ns(device_ns(at_us))});
        }
    };
    add(device_us(first));
    for (std::size_t k = 0; k < curve_.knots(); ++k) add(device_us(curve_.knot_x(k)));
    add(device_us(newest_device_ns_));
    double frames = 0.0;
    for (const ClockPoint& point : points_) frames += point.frames;
    earlier_square_ += frames * curve_.residual() * curve_.residual();
    earlier_frames_ += frames;
    if (length >= longest_ns_) {
        longest_ns_ = length;
        longest_slope_ = curve_.mean_slope();
        longest_begin_ = {device_us(first), fitted_ns(device_ns(device_us(first)))};
    }
}

ClockLine ClockFitter::line() const {
    if (frames_ == 0) return {};
    ClockFitter whole(*this);
    whole.restart();
    ClockLine line;
    line.slope = 1.0 + whole.longest_slope_;
    line.offset_ns = static_cast<double>(whole.longest_begin_.host_time_ns) -
                     line.slope * static_cast<double>(whole.longest_begin_.device_time_us) * ns_per_us;
    line.jitter_sd_ns = whole.jitter_sd_ns();
    line.worst_late_ns = whole.worst_late_ns();
    line.residual_ns = std::sqrt(whole.earlier_square_ / std::max(1.0, whole.earlier_frames_));
    line.edge = whole.edge();
    line.knots = whole.earlier_knots_;
    return line;
}

}  // namespace footing
