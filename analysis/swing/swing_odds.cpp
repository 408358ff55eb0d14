#include "analysis/swing/swing_odds.h"

#include <algorithm>
#include <span>

#include "analysis/swing/swing_odds_table.h"

namespace footing {

namespace {

double along(std::span<const OddsPoint> points, double value) {
    if (!(value > points.front().value)) return points.front().log_odds;
    const auto next = std::ranges::find_if(points, [&](const OddsPoint& p) { return p.value >= value; });
    if (next == points.end()) return points.back().log_odds;
    const OddsPoint& before = *(next - 1);
    const double part = (value - before.value) / (next->value - before.value);
    return before.log_odds + part * (next->log_odds - before.log_odds);
}

}  // namespace

double swing_log_odds(const SwingSigns& signs) {
    double sum = odds_at_first;
    for (std::size_t i = 0; i < sign_count; ++i) sum += along(odds_by_sign[i], signs[i]);
    return sum;
}

double swing_log_odds(double by_signs, const Likeness& likeness) {
    // Beyond where the likeness was learned the signs count in full.
    const double beyond = std::max(0.0, by_signs - odds_by_signs.back().value);
    double sum = likeness_odds_at_first + along(odds_by_signs, by_signs) + beyond;
    for (std::size_t i = 0; i < likeness_sign_count; ++i) sum += along(odds_by_likeness[i], likeness[i]);
    return sum;
}

}  // namespace footing
