#include "analysis/swing/strike_lag.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "analysis/statistics/summary.h"

namespace footing {

namespace {

// Set on made-up golfers; docs/formulas.md says on which.
constexpr double usual_spread_s = 0.035;  ///< of one golfer's swings, as known beforehand …
constexpr double usual_swings = 3.0;      ///< … which counts as much as so many swings
constexpr double unknown_swings = 0.3;    ///< so many speak for the lag of somebody unknown
constexpr double least_deviation_s = 0.02;
constexpr double longest_s = 0.25;    ///< either way; a trigger that is further off fired by something else
constexpr double usual_lag_s = 0.12;  ///< a golfer, or a trigger, that is further off is believed less
constexpr double far_deviations = 2.5;
constexpr std::size_t fewest_to_leave_out = 3;

/// Without those that no golfer has, and those that lie far from the middle one.
std::vector<double> without_far_ones(std::span<const double> values) {
    std::vector<double> kept(values.begin(), values.end());
    std::erase_if(kept, [](double value) { return !(std::abs(value) <= longest_s); });
    if (kept.size() < fewest_to_leave_out) return kept;
    const double middle = median(kept);
    const double limit = far_deviations * std::max(least_deviation_s, robust_standard_deviation(kept));
    std::erase_if(kept, [&](double value) { return std::abs(value - middle) > limit; });
    return kept;
}

StrikeLag learn(std::span<const double> later_s) {
    const std::vector<double> kept = without_far_ones(later_s);
    if (kept.empty()) return {};
    const auto count = static_cast<double>(kept.size());
    double sum = 0.0;
    for (double value : kept) sum += value;
    StrikeLag lag;
    lag.swings = kept.size();
    lag.value_s = sum / (count + unknown_swings);
    double squares = usual_swings * usual_spread_s * usual_spread_s;
    for (double value : kept) squares += (value - lag.value_s) * (value - lag.value_s);
    const double spread_s = std::sqrt(squares / (usual_swings + count));
    lag.u_s = std::hypot(spread_s * std::sqrt(1.0 + 1.0 / (count + unknown_swings)),
                         std::max(0.0, std::abs(lag.value_s) - usual_lag_s));
    return lag;
}

}  // namespace

bool teaches(const Swing& swing) {
    const bool found_shot = !swing.found_kind || *swing.found_kind == SwingKind::shot;
    return swing.strike_after_witnesses_s && swing.kind == SwingKind::shot && found_shot;
}

StrikeLags learn_strike_lags(std::span<const StrikeWitnesses> later_s) {
    StrikeLags lags;
    for (std::size_t witness = 0; witness < lags.size(); ++witness) {
        std::vector<double> by_witness;
        for (const StrikeWitnesses& swing : later_s) {
            if (swing[witness]) by_witness.push_back(*swing[witness]);
        }
        lags[witness] = learn(by_witness);
    }
    return lags;
}

std::optional<double> trigger_lag_s(std::span<const Swing> swings) {
    std::vector<double> later_s;
    for (const Swing& swing : swings) {
        const auto& impact = swing.events.impact;
        const auto& witnesses = swing.strike_after_witnesses_s;
        if (!impact || impact->source != EventSource::measured || !witnesses) continue;
        const std::optional<double>& by_share = (*witnesses)[share_witness];
        const std::optional<double>& by_push = (*witnesses)[push_witness];
        if (!by_share) continue;
        // Some have their weight back long before they strike, but none pushes so long before.
        later_s.push_back(by_push && std::abs(*by_push) < std::abs(*by_share) ? *by_push : *by_share);
    }
    if (later_s.size() < 2) return std::nullopt;
    return median(std::move(later_s));
}

}  // namespace footing
