#include "analysis/swing/takeaway.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "analysis/statistics/summary.h"
#include "analysis/swing/onset.h"

namespace footing {

namespace {

// Set on made-up motions; docs/formulas.md says on which.
constexpr std::array<double, 4> onset_powers{1.0, 1.6, 2.2, 3.0};
constexpr double onset_part = 0.6;  ///< the start is fitted up to this part of the way
constexpr double takeaway_shape_u_s =
    0.100;  ///< since the shape of the start is not known, nor what sways with it
constexpr double takeaway_seen_late_s = 0.01;  ///< smooth starts more than it is early for abrupt ones
constexpr double late_part = 0.3;              ///< of how long after the quiet spell it is seen …
constexpr double most_late_s = 0.2;            ///< … as far as that is no more than this
constexpr double noise_of_usual_change = 0.7;
constexpr double unrest_to_change = 1.0;     ///< of what moves in the quiet spell
constexpr double least_part_of_usual = 0.3;  ///< a short quiet spell may be stiller than the player is
constexpr double usual_backswing_s = 0.65;   ///< from takeaway to the start of the return, known beforehand
constexpr double usual_backswing_u_s = 0.15;
constexpr double alike_s = 0.25;  ///< sway within this long is one value, not many

/// How badly each entry from `rest_from` fits as the start of the backswing in one of the coarse signals.
std::vector<double> departure_misfit(const StanceSignals& signals, const std::vector<double>& column,
                                     const SwingCandidate& swing, std::size_t rest_from,
                                     double usual_change) {
    const std::size_t window = std::min(swing.quiet_to - swing.quiet_from, signals.entries(0.3));
    const double level = mean(std::span(column).subspan(swing.quiet_to - window, window + 1));
    std::size_t furthest = swing.quiet_to;
    for (std::size_t i = swing.quiet_to; i <= swing.turn; ++i) {
        if (std::abs(column[i] - level) > std::abs(column[furthest] - level)) furthest = i;
    }
    const double gone = std::abs(column[furthest] - level);
    // How still it is before this swing, which in a busy lesson is stiller than usual.
    const auto [lowest, highest] =
        std::minmax_element(column.begin() + static_cast<std::ptrdiff_t>(swing.quiet_to - window),
                            column.begin() + static_cast<std::ptrdiff_t>(swing.quiet_to) + 1);
    const double change_here =
        std::clamp(unrest_to_change * (*highest - *lowest), least_part_of_usual * usual_change, usual_change);
    if (gone < 2.0 * change_here) return {};
    std::size_t end = furthest;
    while (end > swing.quiet_to && std::abs(column[end] - level) > onset_part * gone) --end;
    return onset_misfit(std::span(column).subspan(rest_from, end + 1 - rest_from), onset_powers,
                        noise_of_usual_change * change_here);
}

}  // namespace

std::optional<Event> find_takeaway(const StanceSignals& signals, const SwingCandidate& swing) {
    const std::size_t rest_from =
        swing.quiet_to - std::min(swing.quiet_to - swing.quiet_from, signals.entries(0.6));
    std::vector<std::vector<double>> misfits{
        departure_misfit(signals, signals.share, swing, rest_from, signals.usual_share_change),
        departure_misfit(signals, signals.forward_m, swing, rest_from, signals.usual_forward_change_m)};
    std::erase_if(misfits, [](const std::vector<double>& misfit) { return misfit.empty(); });
    if (misfits.empty()) return std::nullopt;
    const double expected = static_cast<double>(swing.turn - rest_from) - usual_backswing_s * signals.rate_hz;
    const std::optional<Onset> onset = most_likely_onset(misfits, alike_s * signals.rate_hz, expected,
                                                         usual_backswing_u_s * signals.rate_hz);
    if (!onset) return std::nullopt;
    const double seen_s =
        signals.time_s(static_cast<double>(rest_from) + onset->sample) - takeaway_seen_late_s;
    const double after_quiet_s = seen_s - signals.time_s(static_cast<double>(swing.quiet_to));
    return Event{seen_s - late_part * std::clamp(after_quiet_s, 0.0, most_late_s),
                 std::hypot(onset->u_samples / signals.rate_hz, takeaway_shape_u_s), EventSource::estimated};
}

}  // namespace footing
