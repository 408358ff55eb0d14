#include "analysis/swing/onset.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "analysis/swing/likely_instant.h"

namespace footing {

namespace {
constexpr double impossible = std::numeric_limits<double>::infinity();
constexpr std::size_t least_at_rest = 8;
constexpr std::size_t least_gone = 5;
/// Part of the swings in which a column left its rest by sway and not by the backswing; it may not outvote
/// the others then.
constexpr double swayed_otherwise = 0.05;
}  // namespace

std::vector<double> onset_misfit(std::span<const double> column, std::span<const double> powers,
                                 double least_noise) {
    const std::size_t n = column.size();
    if (n < least_at_rest + least_gone + 1) return {};
    const double origin = column[0];  // keeps digits
    double sum = 0.0;
    double squares = 0.0;
    for (const double value : column) {
        sum += value - origin;
        squares += (value - origin) * (value - origin);
    }
    const double count = static_cast<double>(n);
    std::vector<double> misfit(n, impossible);
    double least = impossible;
    std::vector<double> rise(n);
    for (const double power : powers) {
        for (std::size_t k = 0; k < n; ++k) rise[k] = std::pow(static_cast<double>(k), power);
        for (std::size_t start = least_at_rest; start + least_gone < n; ++start) {
            double r = 0.0;
            double rr = 0.0;
            double ry = 0.0;
            for (std::size_t i = start; i < n; ++i) {
                const double value = rise[i - start];
                r += value;
                rr += value * value;
                ry += value * (column[i] - origin);
            }
            const double determinant = count * rr - r * r;
            if (!(determinant > 0.0)) continue;
            const double slope = (count * ry - r * sum) / determinant;
            const double level = (sum - slope * r) / count;
            misfit[start] = std::min(misfit[start], std::max(0.0, squares - level * sum - slope * ry));
            least = std::min(least, misfit[start]);
        }
    }
    const double variance = std::max({least / (count - 3.0), least_noise * least_noise, 1e-18});
    for (double& value : misfit) value = (value - least) / variance;
    return misfit;
}

std::optional<Onset> most_likely_onset(std::span<const std::vector<double>> misfits, double alike,
                                       double expected_sample, double expected_u) {
    std::size_t n = 0;
    for (const std::vector<double>& misfit : misfits) n = std::max(n, misfit.size());
    double least = impossible;
    std::vector<double> total(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        const double off = (static_cast<double>(i) - expected_sample) / expected_u;
        total[i] = off * off;
        for (const std::vector<double>& misfit : misfits) {
            if (misfit.empty()) continue;
            if (i >= misfit.size() || !std::isfinite(misfit[i])) {
                total[i] = impossible;
                continue;
            }
            const double likelihood = std::exp(-0.5 * misfit[i] / alike);
            total[i] -= 2.0 * std::log(swayed_otherwise + (1.0 - swayed_otherwise) * likelihood);
        }
        least = std::min(least, total[i]);
    }
    if (!std::isfinite(least)) return std::nullopt;
    // Mean and standard deviation of the instant, weighted by how likely it is.
    LikelyInstant onset;
    for (std::size_t i = 0; i < n; ++i)
        onset.add(static_cast<double>(i), std::exp(-0.5 * (total[i] - least)));
    return Onset{onset.sample(), onset.u_samples()};
}

}  // namespace footing
