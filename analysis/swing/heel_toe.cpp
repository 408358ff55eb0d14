#include "analysis/swing/heel_toe.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/trace_stretch.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

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
                                const EventSpan& span) {
    const TraceStretch stretch = stretch_between(trace, span.from_s, span.to_s);
    RunningSummary y;
    for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
        if (known(y_m[i])) y.add(y_m[i]);
    }
    if (y.count() == 0) return std::nullopt;
    return std::clamp((y.mean() - rows.heel_m) / (rows.toe_m - rows.heel_m), 0.0, 1.0);
}

FootShares shares_of(const LoadTrace& trace, const std::vector<double>& y_m, const Rows& rows,
                     const SwingEvents& events) {
    FootShares shares;
    const auto mean_over = [&](const EventSpan& span) { return toe_share(trace, y_m, rows, span); };
    if (events.address) shares.address = mean_over(address_span(*events.address));
    if (events.top) shares.top = mean_over(instant_span(*events.top));
    if (events.impact) shares.impact = mean_over(instant_span(*events.impact));
    if (events.finish) shares.finish = mean_over(finish_span(*events.finish));
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
