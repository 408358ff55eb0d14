#include "analysis/swing/heel_toe.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr double half_window_s = 0.015;
constexpr double finish_mean_s = 0.3;
constexpr double same_row_m = 0.001;

/// The two rows of a plate's cells, metres ahead in the plate frame.
struct Rows {
    double heel_m = 0.0;
    double toe_m = 0.0;
};

std::optional<Rows> rows_of(const Plate& plate) {
    if (plate.cells.size() < 4) return std::nullopt;
    std::vector<double> heel;
    std::vector<double> toe;
    for (const PointM& cell : plate.cells) (cell.y_m > 0.0 ? toe : heel).push_back(cell.y_m);
    if (heel.size() < 2 || toe.size() < 2) return std::nullopt;
    for (const auto* row : {&heel, &toe}) {
        const auto [least, most] = std::minmax_element(row->begin(), row->end());
        if (*most - *least > same_row_m) return std::nullopt;
    }
    return Rows{plate.centre.y_m + mean(heel), plate.centre.y_m + mean(toe)};
}

std::optional<double> toe_share(const LoadTrace& trace, const std::vector<double>& y_m, const Rows& rows,
                                double from_s, double to_s) {
    const auto at = [&](double time_s) {
        return static_cast<std::size_t>(
            std::clamp(std::round(time_s * trace.rate_hz), 0.0, static_cast<double>(trace.size() - 1)));
    };
    RunningSummary y;
    for (std::size_t i = at(from_s); i <= at(to_s); ++i) {
        if (known(y_m[i])) y.add(y_m[i]);
    }
    if (y.count() == 0) return std::nullopt;
    return std::clamp((y.mean() - rows.heel_m) / (rows.toe_m - rows.heel_m), 0.0, 1.0);
}

FootShares shares_of(const LoadTrace& trace, const std::vector<double>& y_m, const Rows& rows,
                        const SwingEvents& events) {
    FootShares shares;
    if (events.address) {
        const double half_s = events.address->u_s * std::sqrt(3.0);
        shares.address =
            toe_share(trace, y_m, rows, events.address->time_s - half_s, events.address->time_s + half_s);
    }
    const auto at_instant = [&](const std::optional<Event>& event) -> std::optional<double> {
        if (!event) return std::nullopt;
        return toe_share(trace, y_m, rows, event->time_s - half_window_s, event->time_s + half_window_s);
    };
    shares.top = at_instant(events.top);
    shares.impact = at_instant(events.impact);
    if (events.finish)
        shares.finish =
            toe_share(trace, y_m, rows, events.finish->time_s, events.finish->time_s + finish_mean_s);
    return shares;
}

}  // namespace

std::optional<HeelToe> measure_heel_toe(const LoadTrace& trace, const PlateLayout& layout, Hand hand,
                                        const SwingEvents& events) {
    if (layout.kind != FrameKind::cells || trace.size() == 0) return std::nullopt;
    const std::vector<PlateSide> sides = plate_sides(layout);
    const auto rows_under = [&](PlateSide side) -> std::optional<Rows> {
        if (std::ranges::count(sides, side) != 1) return std::nullopt;
        return rows_of(
            layout.plates[static_cast<std::size_t>(std::ranges::find(sides, side) - sides.begin())]);
    };
    const auto left = rows_under(PlateSide::left);
    const auto right = rows_under(PlateSide::right);
    if (!left || !right) return std::nullopt;
    const bool right_handed = hand == Hand::right;
    HeelToe both;
    (right_handed ? both.lead : both.trail) = shares_of(trace, trace.left_y_m, *left, events);
    (right_handed ? both.trail : both.lead) = shares_of(trace, trace.right_y_m, *right, events);
    return both;
}

}  // namespace footing
