#include "analysis/pressure/trace_piece.h"

#include <algorithm>

namespace footing {

namespace {

/// Calls `act` with each pair of columns; a column that is not filled is left out.
template <typename To, typename From, typename Act>
void for_each_column(To& to, From& from, Act act) {
    act(to.time_s, from.time_s);
    act(to.total_n, from.total_n);
    act(to.left_n, from.left_n);
    act(to.right_n, from.right_n);
    act(to.cop_x_m, from.cop_x_m);
    act(to.cop_y_m, from.cop_y_m);
    act(to.left_x_m, from.left_x_m);
    act(to.left_y_m, from.left_y_m);
    act(to.right_x_m, from.right_x_m);
    act(to.right_y_m, from.right_y_m);
    act(to.trigger, from.trigger);
    act(to.bridged, from.bridged);
    act(to.mat, from.mat);
}

void append_samples(LoadTrace& to, const LoadTrace& from, std::ptrdiff_t first, std::ptrdiff_t last) {
    const auto instants = static_cast<std::ptrdiff_t>(from.size());
    for_each_column(to, from, [&](auto& column, const auto& added) {
        if (static_cast<std::ptrdiff_t>(added.size()) != instants) return;
        column.insert(column.end(), added.begin() + first, added.begin() + last);
    });
}

}  // namespace

LoadTrace trace_piece(const LoadTrace& trace, double later_s, double from_s, double to_s) {
    LoadTrace stretch;
    stretch.rate_hz = trace.rate_hz;
    const auto first = std::ranges::lower_bound(trace.time_s, from_s - later_s);
    const auto last = std::ranges::upper_bound(first, trace.time_s.end(), to_s - later_s);
    append_samples(stretch, trace, first - trace.time_s.begin(), last - trace.time_s.begin());
    for (double& time_s : stretch.time_s) time_s += later_s;
    return stretch;
}

void cut_trace(LoadTrace& trace, std::size_t samples) {
    const std::size_t before = trace.size();
    for_each_column(trace, trace, [&](auto& column, auto&) {
        if (column.size() == before) column.resize(std::min(samples, before));
    });
}

void append_piece(LoadTrace& trace, const LoadTrace& piece) {
    if (trace.rate_hz <= 0.0) trace.rate_hz = piece.rate_hz;
    const auto first = trace.time_s.empty() ? piece.time_s.begin()
                                            : std::ranges::upper_bound(piece.time_s, trace.time_s.back());
    append_samples(trace, piece, first - piece.time_s.begin(), static_cast<std::ptrdiff_t>(piece.size()));
}

}  // namespace footing
