#include "analysis/statistics/time_mean.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t fewest_blocks = 4;

std::vector<double> known_values(std::span<const double> values) {
    std::vector<double> kept;
    kept.reserve(values.size());
    std::copy_if(values.begin(), values.end(), std::back_inserter(kept),
                 [](double value) { return std::isfinite(value); });
    return kept;
}

/// Means over whole blocks of `length` samples; the rest at the end is left out.
std::vector<double> block_means(std::span<const double> values, std::size_t length) {
    std::vector<double> means;
    for (std::size_t begin = 0; begin + length <= values.size(); begin += length)
        means.push_back(mean(values.subspan(begin, length)));
    return means;
}

/// Half the mean square of successive differences: the variance that does not drift.
double successive_variance(std::span<const double> values) {
    double squares = 0.0;
    for (std::size_t i = 1; i < values.size(); ++i)
        squares += (values[i] - values[i - 1]) * (values[i] - values[i - 1]);
    return 0.5 * squares / static_cast<double>(values.size() - 1);
}

std::size_t samples_in(double seconds, double rate_hz) {
    return static_cast<std::size_t>(std::max(1.0, std::round(seconds * rate_hz)));
}

}  // namespace

TimeMean time_mean(std::span<const double> values, double rate_hz, const TimeMeanOptions& options) {
    const std::vector<double> kept = known_values(values);
    if (kept.size() < 2) return {kept.empty() ? not_a_number : kept.front(), not_a_number};
    const auto count = static_cast<double>(kept.size());
    const std::vector<double> blocks =
        block_means(kept, std::min(samples_in(options.block_s, rate_hz),
                                   std::max<std::size_t>(1, kept.size() / fewest_blocks)));
    const auto block_count = static_cast<double>(blocks.size());
    const double white = successive_variance(kept) / count;
    if (blocks.size() < 2) return {mean(kept), std::sqrt(white)};
    // The differences of m values bear about 2 (m - 1) / 3 degrees of freedom.
    const double of_blocks = successive_variance(blocks);
    const double few = covering_factor(std::max(1.0, 2.0 * (block_count - 1.0) / 3.0));
    const double noise = std::max(white, of_blocks / block_count * few * few);
    const double spread = standard_deviation(blocks);
    const double sway = std::max(0.0, spread * spread - of_blocks);
    const double independent = std::max(1.0, count / rate_hz / options.sway_alike_s);
    return {mean(kept), std::sqrt(noise + sway / independent)};
}

double noise_of_window_mean(std::span<const double> values, double rate_hz, double window_s) {
    const std::vector<double> blocks = block_means(known_values(values), samples_in(window_s, rate_hz));
    return blocks.size() < 3 ? not_a_number : std::sqrt(successive_variance(blocks));
}

}  // namespace footing
