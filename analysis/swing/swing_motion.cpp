#include "analysis/swing/swing_motion.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

/// The share is smoothed no more than its noise asks for.
constexpr double least_smoothing_hz = 8.0;
constexpr double most_smoothing_hz = 20.0;
constexpr double share_noise_allowed = 0.0006;
constexpr double load_smoothing_hz = 15.0;

void fill_unknown(std::vector<double>& column) {
    double last = unknown;
    for (double& value : column) {
        if (std::isnan(value)) value = last;
        last = value;
    }
    const auto first_known = std::find_if(column.begin(), column.end(), known);
    if (first_known != column.end()) std::fill(column.begin(), first_known, *first_known);
}

void smooth_column(std::vector<double>& column, double cutoff_hz, double rate_hz) {
    const double cutoff = std::min(cutoff_hz, 0.2 * rate_hz);
    zero_lag_filter_known(butterworth_low_pass(2, cutoff_for_two_passes(2, cutoff, rate_hz), rate_hz),
                          column);
}

/// Standard deviation of the noise from one sample to the next.
double sample_noise(std::span<const double> column) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < column.size(); ++i) {
        if (known(column[i]) && known(column[i - 1])) steps.push_back(column[i] - column[i - 1]);
    }
    return steps.size() < 8 ? 0.0 : standard_deviation(steps) / std::sqrt(2.0);
}

}  // namespace

std::size_t SwingMotion::entry(double time_s) const {
    const double offset = std::round(time_s * rate_hz) - static_cast<double>(first);
    return static_cast<std::size_t>(std::clamp(offset, 0.0, static_cast<double>(share.size() - 1)));
}

SwingMotion swing_motion(const LoadTrace& trace, Hand hand, const StanceSignals& signals,
                         const SwingCandidate& swing, std::size_t next_from, const SwingOptions& options) {
    SwingMotion motion;
    motion.rate_hz = trace.rate_hz;
    const std::size_t step = signals.instants_per_entry;
    const std::size_t from = swing.quiet_from;
    const std::size_t to = std::min(
        next_from, std::min(signals.size() - 1, swing.arrival + signals.entries(look_after_arrival_s)));
    motion.first = from * step;
    const std::size_t end = std::min(trace.size(), std::max(to, swing.arrival + 1) * step);
    for (std::size_t i = motion.first; i < end; ++i) {
        double share = unknown;
        if (signals.feet_known) {
            share = lead_share(trace.left_n[i], trace.right_n[i], hand, options.load_floor_n);
        } else {
            share = 0.5 + stance_x_m(trace.cop_x_m[i], hand) / assumed_stance_m;
        }
        motion.share.push_back(share);
        motion.smooth_load.push_back(trace.total_n[i]);
    }
    const std::size_t address_end = std::min(motion.smooth_load.size(), (swing.quiet_to - from + 1) * step);
    motion.address_load_n = mean(std::span(motion.smooth_load).first(address_end));
    for (double& load : motion.smooth_load) load /= motion.address_load_n;
    motion.share_noise = sample_noise(std::span(motion.share).first(address_end));
    const double ratio = share_noise_allowed / std::max(motion.share_noise, 1e-9);
    motion.smoothing_hz =
        std::clamp(0.5 * motion.rate_hz * ratio * ratio, least_smoothing_hz, most_smoothing_hz);
    motion.smooth_share = motion.share;
    fill_unknown(motion.smooth_share);
    smooth_column(motion.smooth_share, motion.smoothing_hz, motion.rate_hz);
    smooth_column(motion.smooth_load, load_smoothing_hz, motion.rate_hz);
    return motion;
}

}  // namespace footing
