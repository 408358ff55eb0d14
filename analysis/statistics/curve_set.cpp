#include "analysis/statistics/curve_set.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "analysis/statistics/distributions.h"

namespace footing {

namespace {

constexpr std::size_t fewest_curves = 3;
constexpr std::size_t fewest_points = 3;
constexpr std::size_t none_left_out = static_cast<std::size_t>(-1);

struct MeanAndSpread {
    std::vector<double> mean;
    std::vector<double> sd;
    double roughness = 0.0;
};

/// Of all curves but one.
MeanAndSpread mean_and_spread(const Curves& curves, std::size_t without, double least_sd) {
    const std::size_t points = curves.front().size();
    const double count = static_cast<double>(curves.size()) - (without == none_left_out ? 0.0 : 1.0);
    MeanAndSpread set{std::vector<double>(points, 0.0), std::vector<double>(points, 0.0)};
    std::vector<double> length(points, 0.0);  // of the vector of residuals
    for (std::size_t c = 0; c < curves.size(); ++c) {
        if (c == without) continue;
        for (std::size_t k = 0; k < points; ++k) set.mean[k] += curves[c][k] / count;
    }
    for (std::size_t c = 0; c < curves.size(); ++c) {
        if (c == without) continue;
        for (std::size_t k = 0; k < points; ++k)
            length[k] += (curves[c][k] - set.mean[k]) * (curves[c][k] - set.mean[k]);
    }
    for (std::size_t k = 0; k < points; ++k) {
        set.sd[k] = std::max(least_sd, std::sqrt(length[k] / (count - 1.0)));
        length[k] = std::sqrt(length[k]);
    }
    // How far the residuals, brought to length one, turn from point to point (Taylor & Worsley 2007).
    for (std::size_t k = 1; k < points; ++k) {
        double turned = 0.0;
        if (!(length[k] > 0.0) || !(length[k - 1] > 0.0)) continue;
        for (std::size_t c = 0; c < curves.size(); ++c) {
            if (c == without) continue;
            const double step = (curves[c][k] - set.mean[k]) / length[k] -
                                (curves[c][k - 1] - set.mean[k - 1]) / length[k - 1];
            turned += step * step;
        }
        set.roughness += std::sqrt(turned);
    }
    return set;
}

bool is_table(const Curves& curves) {
    const std::size_t points = curves.front().size();
    return points >= fewest_points && std::ranges::all_of(curves, [points](const std::vector<double>& curve) {
               return curve.size() == points &&
                      std::ranges::all_of(curve, [](double value) { return std::isfinite(value); });
           });
}

}  // namespace

double simultaneous_t_tail(double level, double degrees, double roughness) {
    const double at_one_point = student_t_probability(-level, degrees);
    const double along = roughness / (2.0 * std::numbers::pi) *
                         std::pow(1.0 + level * level / degrees, -0.5 * (degrees - 1.0));
    return std::min(1.0, 2.0 * (at_one_point + along));
}

double simultaneous_t_level(double degrees, double roughness, double confidence) {
    double low = 0.0;
    double high = 1.0;
    const double wanted = 1.0 - confidence;
    while (simultaneous_t_tail(high, degrees, roughness) > wanted && high < 1e9) high *= 2.0;
    for (int halving = 0; halving < 100; ++halving) {
        const double middle = 0.5 * (low + high);
        (simultaneous_t_tail(middle, degrees, roughness) > wanted ? low : high) = middle;
    }
    return high;
}

std::optional<CurveSet> curve_set(const Curves& curves, double least_sd, double confidence) {
    if (curves.size() < fewest_curves || !is_table(curves)) return std::nullopt;
    MeanAndSpread spread = mean_and_spread(curves, none_left_out, least_sd);
    if (!(*std::ranges::max_element(spread.sd) > 0.0)) return std::nullopt;
    CurveSet set;
    const double count = static_cast<double>(curves.size());
    set.roughness = spread.roughness;
    set.band_factor = simultaneous_t_level(count - 1.0, spread.roughness, confidence);
    set.next_factor = set.band_factor * std::sqrt(1.0 + 1.0 / count);
    set.mean = std::move(spread.mean);
    set.sd = std::move(spread.sd);
    return set;
}

std::vector<OddCurve> odd_curves(const Curves& curves, double least_sd) {
    std::vector<OddCurve> all;
    if (curves.size() < fewest_curves_to_judge || !is_table(curves)) return all;
    const double others = static_cast<double>(curves.size()) - 1.0;
    for (std::size_t c = 0; c < curves.size(); ++c) {
        const MeanAndSpread set = mean_and_spread(curves, c, least_sd);
        OddCurve odd;
        odd.curve = c;
        for (std::size_t k = 0; k < set.mean.size(); ++k) {
            if (!(set.sd[k] > 0.0)) continue;
            const double distance =
                std::abs(curves[c][k] - set.mean[k]) / (set.sd[k] * std::sqrt(1.0 + 1.0 / others));
            if (distance <= odd.distance) continue;
            odd.distance = distance;
            odd.point = k;
        }
        odd.p = std::min(1.0, static_cast<double>(curves.size()) *
                                  simultaneous_t_tail(odd.distance, others - 1.0, set.roughness));
        all.push_back(odd);
    }
    return all;
}

}  // namespace footing
