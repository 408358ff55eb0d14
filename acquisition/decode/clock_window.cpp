#include "acquisition/decode/clock_window.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {
/// A guessed slope gives way to the stretch's own where they differ by more than this many standard errors
/// and by more than clocks differ: frames come from a recording played faster, say.
constexpr double clearly_another = 6.0;
}  // namespace

void ClockWindow::begin(double device_ns, double slope) {
    const std::uint64_t chance = chance_;
    *this = ClockWindow{};
    chance_ = chance;
    begins_ns_ = device_ns;
    slope_ = slope;
}

void ClockWindow::take(double device_ns, double excess_ns) {
    if (frames_ == 0) first_excess_ns_ = excess_ns;
    const Sample sample{device_ns - begins_ns_, excess_ns - first_excess_ns_};
    std::size_t place = frames_;
    if (place >= most_samples) {
        chance_ ^= chance_ << 13U;  // Marsaglia 2003, xorshift
        chance_ ^= chance_ >> 7U;
        chance_ ^= chance_ << 17U;
        place = static_cast<std::size_t>(chance_ % (frames_ + 1));
    }
    if (place < most_samples) samples_[place] = sample;
    const double level = sample.excess_ns - slope_ * sample.device_ns;
    earliest_ns_ = frames_ == 0 ? level : std::min(earliest_ns_, level);
    latest_ns_ = frames_ == 0 ? level : std::max(latest_ns_, level);
    ++frames_;
    const double from_old_device = sample.device_ns - mean_device_ns_;
    const double from_old_excess = sample.excess_ns - mean_excess_ns_;
    mean_device_ns_ += from_old_device / static_cast<double>(frames_);
    mean_excess_ns_ += from_old_excess / static_cast<double>(frames_);
    device_square_ += from_old_device * (sample.device_ns - mean_device_ns_);
    excess_square_ += from_old_excess * (sample.excess_ns - mean_excess_ns_);
    product_ += from_old_device * (sample.excess_ns - mean_excess_ns_);
}

double ClockWindow::own_slope() const {
    if (frames_ < 3 || device_square_ <= 0.0) return slope_;
    const double slope = product_ / device_square_;
    const double left = std::max(0.0, excess_square_ - product_ * slope);
    const double error = std::sqrt(left / static_cast<double>(frames_ - 2) / device_square_);
    const double apart = std::abs(slope - slope_);
    return apart > most_clock_error && apart > clearly_another * error ? slope : slope_;
}

ClockWindow::Summary ClockWindow::summary(Slope how) const {
    const double slope = how == Slope::known ? slope_ : own_slope();
    const std::size_t count = std::min(frames_, most_samples);
    std::array<double, most_samples> levels{};
    for (std::size_t i = 0; i < count; ++i) levels[i] = samples_[i].excess_ns - slope * samples_[i].device_ns;
    std::sort(levels.begin(), levels.begin() + static_cast<std::ptrdiff_t>(count));
    const double median = (levels[(count - 1) / 2] + levels[count / 2]) / 2.0;
    const bool exact = slope == slope_;
    const double earliest = exact ? earliest_ns_ : levels[0];
    const double latest = exact ? latest_ns_ : levels[count - 1];

    const auto frames = static_cast<double>(frames_);
    const double at_middle = first_excess_ns_ + slope * mean_device_ns_;
    Summary result;
    result.point = {begins_ns_ + mean_device_ns_, at_middle + earliest, at_middle + median, frames};
    const double variance = excess_square_ - 2.0 * slope * product_ + slope * slope * device_square_;
    const double one_percent = levels[count / 100];
    const double ten_percent = levels[count / 10];
    result.spread = {ten_percent - one_percent, median - ten_percent, std::max(0.0, variance),
                     latest - earliest, frames};
    return result;
}

}  // namespace footing
