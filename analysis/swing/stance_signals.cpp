#include "analysis/swing/stance_signals.h"

#include <algorithm>
#include <cmath>

#include "analysis/pressure/filter.h"
#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr double coarse_rate_hz = 100.0;
constexpr double signal_smoothing_hz = 7.0;
constexpr double longest_bridge_to_use_s = 0.06;
/// Loads that belong to somebody standing, in body weights.
constexpr double least_standing_bw = 0.3;

/// Bridges that are too long to be trusted, marked at every sampling instant.
std::vector<std::uint8_t> long_bridges(const LoadTrace& trace) {
    std::vector<std::uint8_t> is_long(trace.size(), 0);
    const auto longest = static_cast<std::size_t>(longest_bridge_to_use_s * trace.rate_hz);
    for (std::size_t i = 0; i < trace.size();) {
        std::size_t end = i;
        while (end < trace.size() && trace.bridged[end] != 0) ++end;
        if (end - i > longest)
            std::fill(is_long.begin() + static_cast<std::ptrdiff_t>(i),
                      is_long.begin() + static_cast<std::ptrdiff_t>(end), std::uint8_t{1});
        i = std::max(end, i + 1);
    }
    return is_long;
}

/// Sum and count of the known values of some sampling instants.
struct KnownMean {
    double sum = 0.0;
    std::size_t count = 0;
    void add(double value) {
        if (std::isnan(value)) return;
        sum += value;
        ++count;
    }
    [[nodiscard]] double mean() const { return count == 0 ? unknown : sum / static_cast<double>(count); }
};

void smooth_signal(std::vector<double>& column, double rate_hz) {
    const double cutoff_hz = std::min(signal_smoothing_hz, 0.2 * rate_hz);
    zero_lag_filter_known(butterworth_low_pass(2, cutoff_for_two_passes(2, cutoff_hz, rate_hz), rate_hz),
                          column);
}

double median_change(const std::vector<double>& column, const std::vector<std::uint8_t>& usable,
                     std::size_t apart) {
    std::vector<double> changes;
    for (std::size_t i = apart; i < column.size(); ++i) {
        if (usable[i] != 0 && usable[i - apart] != 0)
            changes.push_back(std::abs(column[i] - column[i - apart]));
    }
    return changes.empty() ? 0.0 : median(std::move(changes));
}

/// The load of somebody who stands still: the median over the windows in which the load hardly changes.
double quiet_load_n(const std::vector<double>& load_n, double rate_hz, const SwingOptions& options) {
    const auto window = static_cast<std::size_t>(std::max(2.0, 0.5 * rate_hz));
    constexpr double still = 0.03;  // of the mean load, from lowest to highest
    std::vector<double> quiet;
    for (std::size_t begin = 0; begin + window <= load_n.size(); begin += window / 2) {
        const auto from = load_n.begin() + static_cast<std::ptrdiff_t>(begin);
        const auto [lowest, highest] = std::minmax_element(from, from + static_cast<std::ptrdiff_t>(window));
        if (!(*lowest >= options.least_body_weight_n)) continue;
        if (*highest - *lowest <= still * *highest) quiet.push_back(0.5 * (*highest + *lowest));
    }
    return quiet.empty() ? 0.0 : median(std::move(quiet));
}

}  // namespace

bool all_usable(const StanceSignals& signals, std::size_t from, std::size_t to) {
    const auto begin = signals.usable.begin();
    return std::all_of(begin + static_cast<std::ptrdiff_t>(from), begin + static_cast<std::ptrdiff_t>(to),
                       [](std::uint8_t usable) { return usable != 0; });
}

StanceSignals stance_signals(const LoadTrace& trace, Hand hand, const SwingOptions& options,
                             const std::optional<StanceLevels>& levels) {
    StanceSignals signals;
    if (trace.size() == 0 || !(trace.rate_hz > 0.0)) return signals;
    const auto step =
        static_cast<std::size_t>(std::max(1.0, std::floor(trace.rate_hz / coarse_rate_hz + 1e-6)));
    signals.instants_per_entry = step;
    signals.rate_hz = trace.rate_hz / static_cast<double>(step);
    const std::size_t count = trace.size() / step;
    signals.share.resize(count);
    signals.load_bw.resize(count);
    signals.forward_m.resize(count);
    signals.usable.assign(count, 0);
    signals.struck.assign(count, 0);

    const std::vector<std::uint8_t> is_long_bridge = long_bridges(trace);
    const std::vector<double>& lead_n = hand == Hand::right ? trace.left_n : trace.right_n;
    const std::vector<double>& trail_n = hand == Hand::right ? trace.right_n : trace.left_n;
    signals.feet_known = std::any_of(lead_n.begin(), lead_n.end(), known) &&
                         std::any_of(trail_n.begin(), trail_n.end(), known);

    for (std::size_t entry = 0; entry < count; ++entry) {
        double total_n = 0.0;
        double lead_sum_n = 0.0;
        double trail_sum_n = 0.0;
        KnownMean across;
        KnownMean forward;
        bool is_bridge = false;
        for (std::size_t i = entry * step; i < (entry + 1) * step; ++i) {
            total_n += trace.total_n[i];
            lead_sum_n += lead_n[i];
            trail_sum_n += trail_n[i];
            across.add(trace.cop_x_m[i]);
            forward.add(trace.cop_y_m[i]);
            is_bridge = is_bridge || is_long_bridge[i] != 0;
            if (i > 0 && trace.trigger[i] != 0 && trace.trigger[i - 1] == 0) signals.struck[entry] = 1;
        }
        total_n /= static_cast<double>(step);
        signals.load_bw[entry] = total_n;
        signals.usable[entry] = is_bridge ? 0 : 1;
        const bool stands = total_n >= options.load_floor_n;
        signals.forward_m[entry] = stands ? forward.mean() : unknown;
        if (signals.feet_known) {
            const double both_n = lead_sum_n + trail_sum_n;
            signals.share[entry] = stands && both_n > 0.0 ? lead_sum_n / both_n : unknown;
        } else {
            signals.share[entry] =
                stands ? 0.5 + stance_x_m(across.mean(), hand) / assumed_stance_m : unknown;
        }
    }

    smooth_signal(signals.load_bw, signals.rate_hz);
    smooth_signal(signals.share, signals.rate_hz);
    smooth_signal(signals.forward_m, signals.rate_hz);
    if (levels) static_cast<StanceLevels&>(signals) = *levels;
    if (!levels) signals.body_weight_n = quiet_load_n(signals.load_bw, signals.rate_hz, options);
    if (signals.body_weight_n <= 0.0) {
        std::ranges::fill(signals.usable, std::uint8_t{0});
        return signals;
    }
    for (std::size_t entry = 0; entry < count; ++entry) {
        signals.load_bw[entry] /= signals.body_weight_n;
        if (!(signals.load_bw[entry] >= least_standing_bw) || std::isnan(signals.share[entry]))
            signals.usable[entry] = 0;
    }
    if (levels) return signals;
    const std::size_t apart = std::max<std::size_t>(1, signals.entries(options.quiet_window_s));
    signals.usual_share_change = median_change(signals.share, signals.usable, apart);
    signals.usual_load_change_bw = median_change(signals.load_bw, signals.usable, apart);
    signals.usual_forward_change_m = median_change(signals.forward_m, signals.usable, apart);
    return signals;
}

}  // namespace footing
