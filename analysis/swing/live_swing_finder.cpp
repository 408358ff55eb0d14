#include "analysis/swing/live_swing_finder.h"

#include <algorithm>
#include <cmath>

#include "analysis/pressure/trace_builder.h"
#include "analysis/swing/analyse_swings.h"

namespace footing {

namespace {
constexpr double kept_s = 30.0;
constexpr double look_every_s = 1.0;
/// A swing is over when this much was seen after its impact, or after its finish.
constexpr double over_after_impact_s = 3.6;
constexpr double over_after_finish_s = 1.0;
/// The start of what is kept may cut a swing in two: what begins in it was seen before.
constexpr double unsure_at_start_s = 5.0;
constexpr double known_swing_s = 1.0;
}  // namespace

LiveSwingFinder::LiveSwingFinder(double rate_hz, Hand hand, TargetBand band, SwingOptions options)
    : rate_hz_(rate_hz), hand_(hand), band_(band), options_(options) {}

std::size_t LiveSwingFinder::add(const FrameStamp& stamp, const LoadSample& sample) {
    const auto every = static_cast<std::uint64_t>(std::max(1.0, look_every_s * rate_hz_));
    if (!started_) {
        started_ = true;
        first_counter_ = stamp.counter;
        next_look_ = stamp.counter + every;
    }
    kept_.push_back({stamp, sample});
    if (stamp.counter < next_look_) return 0;
    next_look_ = stamp.counter + every;
    const auto longest = static_cast<std::uint64_t>(kept_s * rate_hz_);
    const auto first = std::ranges::find_if(
        kept_, [&](const Kept& kept) { return kept.stamp.counter + longest >= stamp.counter; });
    kept_.erase(kept_.begin(), first);
    return look();
}

std::size_t LiveSwingFinder::look() {
    TraceBuilder builder(rate_hz_);
    builder.reserve(kept_.size());
    for (const Kept& kept : kept_) builder.add(kept.stamp, kept.sample);
    const LoadTrace trace = std::move(builder).finish();
    if (trace.size() < 2) return 0;
    const double offset_s = static_cast<double>(kept_.front().stamp.counter - first_counter_) / rate_hz_;
    const double sure_from_s = offset_s > 0.0 ? unsure_at_start_s : 0.0;
    std::size_t added = 0;
    for (Swing swing : analyse_swings(trace, hand_, band_, options_)) {
        if (!swing.events.impact || swing.events.impact->time_s < sure_from_s) continue;
        const double last_s = trace.time_s.back();
        const bool over =
            swing.events.impact->time_s + over_after_impact_s <= last_s ||
            (swing.events.finish && swing.events.finish->time_s + over_after_finish_s <= last_s);
        if (!over) continue;
        swing.from_s += offset_s;
        swing.to_s += offset_s;
        for (const NamedEvent& named : named_events) {
            std::optional<Event>& event = swing.events.*named.member;
            if (event) event->time_s += offset_s;
        }
        const double impact_s = swing.events.impact->time_s;
        const bool seen = !swings_.empty() && impact_s <= swings_.back().events.impact->time_s + known_swing_s;
        if (seen) continue;
        swing.index = swings_.size() + 1;
        swings_.push_back(swing);
        ++added;
    }
    return added;
}

}  // namespace footing
