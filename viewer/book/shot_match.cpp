#include "viewer/book/shot_match.h"

#include <cmath>

namespace footing {

namespace {

constexpr double widest_offset_s = 600.0;
constexpr double nearness_s = 3.0;
constexpr std::size_t fewest = 3;

/// Pairs in order, each shot with the first swing near it that is still free.
std::vector<std::optional<std::size_t>> pairs_at(const std::vector<double>& shots_s,
                                                 const std::vector<double>& swings_s, double offset_s) {
    std::vector<std::optional<std::size_t>> pairs(shots_s.size());
    std::size_t swing = 0;
    for (std::size_t shot = 0; shot < shots_s.size(); ++shot) {
        const double when_s = shots_s[shot] - offset_s;
        while (swing < swings_s.size() && swings_s[swing] < when_s - nearness_s) ++swing;
        if (swing == swings_s.size()) break;
        if (swings_s[swing] <= when_s + nearness_s) pairs[shot] = swing++;
    }
    return pairs;
}

std::size_t count(const std::vector<std::optional<std::size_t>>& pairs) {
    std::size_t pairs_found = 0;
    for (const auto& swing : pairs) pairs_found += swing.has_value();
    return pairs_found;
}

double mean_offset_s(const std::vector<double>& shots_s, const std::vector<double>& swings_s,
                     const std::vector<std::optional<std::size_t>>& pairs) {
    double sum_s = 0.0;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        if (pairs[i]) sum_s += shots_s[i] - swings_s[*pairs[i]];
    }
    return sum_s / static_cast<double>(count(pairs));
}

}  // namespace

MatchByTime match_by_time(const std::vector<double>& shots_s, const std::vector<double>& swings_s) {
    MatchByTime best;
    std::size_t best_count = 0;
    for (const double shot_s : shots_s) {
        for (const double swing_s : swings_s) {
            const double offset_s = shot_s - swing_s;
            if (std::abs(offset_s) > widest_offset_s) continue;
            const auto pairs = pairs_at(shots_s, swings_s, offset_s);
            const std::size_t found = count(pairs);
            if (found > best_count) {
                best_count = found;
                best.failure = MatchFailure::none;
                best.match.swing_of_row = pairs;
            } else if (found == best_count && pairs != best.match.swing_of_row) {
                best.failure = MatchFailure::ambiguous;
            }
        }
    }
    if (best_count == 0 || (best_count < fewest && best_count < shots_s.size())) {
        return {MatchFailure::too_few, {}};
    }
    best.match.clock_offset_s = mean_offset_s(shots_s, swings_s, best.match.swing_of_row);
    return best;
}

ShotMatch match_at(const std::vector<double>& shots_s, const std::vector<double>& swings_s,
                   double clock_offset_s) {
    return {pairs_at(shots_s, swings_s, clock_offset_s), clock_offset_s};
}

}  // namespace footing
