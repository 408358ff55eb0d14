#include "analysis/swing/finish.h"

#include <algorithm>
#include <vector>

namespace footing {

namespace {

// Set on made-up motions; docs/formulas.md says on which.
constexpr double finish_window_s = 0.3;
constexpr double finish_after_still_s = 0.12;
constexpr double finish_u_s = 0.21;

}  // namespace

std::optional<Event> find_finish(const StanceSignals& signals, double impact_s, std::size_t arrival,
                                 std::size_t next_from) {
    const double share_still = std::max(0.004, 2.5 * signals.usual_share_change);
    const double load_still = std::max(0.015, 4.0 * signals.usual_load_change_bw);
    const std::size_t window = signals.entries(finish_window_s);
    const std::size_t from =
        std::max(arrival, static_cast<std::size_t>(std::max(0.0, impact_s * signals.rate_hz)));
    const std::size_t last =
        std::min({signals.size(), next_from + window, from + signals.entries(look_after_arrival_s)});
    for (std::size_t i = from; i + window < last; ++i) {
        const auto spread = [&](const std::vector<double>& column) {
            const auto begin = column.begin() + static_cast<std::ptrdiff_t>(i);
            const auto [lowest, highest] =
                std::minmax_element(begin, begin + static_cast<std::ptrdiff_t>(window) + 1);
            return *highest - *lowest;
        };
        if (!all_usable(signals, i, i + window + 1)) return std::nullopt;
        if (spread(signals.share) <= share_still && spread(signals.load_bw) <= load_still)
            return Event{signals.time_s(static_cast<double>(i)) + finish_after_still_s, finish_u_s,
                         EventSource::estimated};
    }
    return std::nullopt;
}

}  // namespace footing
