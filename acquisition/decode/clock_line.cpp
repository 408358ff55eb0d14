#include "acquisition/decode/clock_line.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {
constexpr double ns_per_us = 1000.0;
}

void ClockFitter::take(std::uint64_t device_time_us, std::int64_t host_time_ns) {
    if (frames_ == 0) {
        first_device_us_ = device_time_us;
        first_host_ns_ = host_time_ns;
    }
    const double device_ns =
        static_cast<double>(static_cast<std::int64_t>(device_time_us - first_device_us_)) * ns_per_us;
    const double excess_ns = static_cast<double>(host_time_ns - first_host_ns_) - device_ns;
    ++frames_;
    const double from_old_device = device_ns - mean_device_ns_;
    const double from_old_excess = excess_ns - mean_excess_ns_;
    mean_device_ns_ += from_old_device / static_cast<double>(frames_);
    mean_excess_ns_ += from_old_excess / static_cast<double>(frames_);
    device_square_ += from_old_device * (device_ns - mean_device_ns_);
    excess_square_ += from_old_excess * (excess_ns - mean_excess_ns_);
    product_ += from_old_device * (excess_ns - mean_excess_ns_);
}

double ClockFitter::slope() const {
    return device_square_ > 0.0 ? 1.0 + product_ / device_square_ : 1.0;
}

std::int64_t ClockFitter::host_time_ns(std::uint64_t device_time_us) const {
    const double device_ns =
        static_cast<double>(static_cast<std::int64_t>(device_time_us - first_device_us_)) * ns_per_us;
    const double since_first = mean_device_ns_ + mean_excess_ns_ + slope() * (device_ns - mean_device_ns_);
    return first_host_ns_ + std::llround(since_first);
}

ClockLine ClockFitter::line() const {
    if (frames_ == 0) return {};
    ClockLine line;
    line.slope = slope();
    const double first_fitted_ns = mean_device_ns_ + mean_excess_ns_ - line.slope * mean_device_ns_;
    line.offset_ns = static_cast<double>(first_host_ns_) + first_fitted_ns -
                     line.slope * static_cast<double>(first_device_us_) * ns_per_us;
    if (frames_ > 2 && device_square_ > 0.0) {
        const double left = excess_square_ - product_ * product_ / device_square_;
        line.residual_sd_ns = std::sqrt(std::max(0.0, left) / static_cast<double>(frames_ - 2));
    }
    return line;
}

}  // namespace footing
