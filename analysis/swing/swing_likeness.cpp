#include "analysis/swing/swing_likeness.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr double half_portrait_s = 0.45;
/// Smaller ones are as good as none.
constexpr double least_push_bw = 0.005;
constexpr double least_away_s = 0.05;

/// Less their mean, as a vector of length 1; all zeros where they do not change.
std::vector<double> shape_of(std::span<const double> values) {
    std::vector<double> shape(values.begin(), values.end());
    const double middle = mean(shape);
    for (double& value : shape) value -= middle;
    const double length = std::sqrt(std::inner_product(shape.begin(), shape.end(), shape.begin(), 0.0));
    for (double& value : shape) value = length > 0.0 ? value / length : 0.0;
    return shape;
}

double correlation(const std::vector<double>& one, const std::vector<double>& other) {
    return std::inner_product(one.begin(), one.end(), other.begin(), 0.0);
}

Likeness likeness_between(const SwingPortrait& one, const SwingPortrait& other) {
    return {correlation(one.load, other.load),
            correlation(one.share, other.share),
            std::abs(one.address_share - other.address_share),
            std::abs(one.rest_level - other.rest_level),
            std::abs(one.log_push - other.log_push),
            std::abs(one.log_away - other.log_away),
            std::abs(one.lateness_s - other.lateness_s)};
}

}  // namespace

std::optional<SwingPortrait> portrait_of(const SwingCandidate& candidate, const StanceSignals& signals) {
    const std::size_t half = signals.entries(half_portrait_s);
    const std::size_t from = candidate.push_peak - std::min(candidate.push_peak, half);
    if (candidate.push_peak < half || candidate.push_peak + half >= signals.size() ||
        !all_usable(signals, from, from + 2 * half + 1))
        return std::nullopt;
    const auto sign = [&](SwingSign which) { return (*candidate.signs)[static_cast<std::size_t>(which)]; };
    const auto about = [&](const std::vector<double>& column) {
        return shape_of(std::span(column).subspan(from, 2 * half + 1));
    };
    SwingPortrait portrait;
    portrait.load = about(signals.load_bw);
    portrait.share = about(signals.share);
    portrait.address_share =
        mean(std::span(signals.share)
                 .subspan(candidate.quiet_from, candidate.quiet_to - candidate.quiet_from + 1));
    portrait.rest_level = sign(SwingSign::rest_level);
    portrait.log_push = std::log(std::max(sign(SwingSign::push), least_push_bw));
    portrait.log_away = std::log(std::max(sign(SwingSign::away_s), least_away_s));
    portrait.lateness_s = sign(SwingSign::lateness_s);
    return portrait;
}

Likeness likeness_of(const SwingPortrait& portrait, std::span<const SwingPortrait* const> others) {
    std::array<std::vector<double>, likeness_sign_count> by_sign;
    for (const SwingPortrait* other : others) {
        const Likeness one = likeness_between(portrait, *other);
        for (std::size_t i = 0; i < likeness_sign_count; ++i) by_sign[i].push_back(one[i]);
    }
    Likeness likeness{};
    for (std::size_t i = 0; i < likeness_sign_count; ++i) likeness[i] = median(by_sign[i]);
    return likeness;
}

}  // namespace footing
