#include "analysis/swing/live_swing_finder.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "analysis/pressure/impossible_loads.h"
#include "analysis/pressure/trace_builder.h"
#include "analysis/pressure/trace_piece.h"
#include "analysis/swing/analyse_swings.h"
#include "analysis/swing/events.h"
#include "analysis/swing/strike_ripple.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_likeness.h"

namespace footing {

namespace {
constexpr double kept_s = 30.0;
/// From the quiet before the longest backswing to the end of the longest look for a finish.
constexpr double tail_s = 10.0;
constexpr double look_every_s = 0.05;
constexpr double whole_look_every_s = 1.0;
/// A swing is over when this much was seen after its impact, or after its finish (which is known about 0.21 s
/// after it was).
constexpr double over_after_impact_s = 3.6;
constexpr double over_after_finish_s = 0.25;
/// It is complete when this much was seen after its finish: all that is shown and measured of it.
constexpr double complete_after_finish_s = 1.0;
/// The start of what is kept may cut a swing in two: what begins in it was seen before.
constexpr double unsure_at_start_s = 5.0;
constexpr double known_swing_s = 1.0;

bool is_over(const SwingEvents& events, double now_s, double after_finish_s = over_after_finish_s) {
    return events.impact->time_s + over_after_impact_s <= now_s ||
           (events.finish && events.finish->time_s + after_finish_s <= now_s);
}

bool is_complete(const SwingEvents& events, double now_s) {
    return is_over(events, now_s, complete_after_finish_s);
}

void delay(SwingEvents& events, double by_s) {
    for (const NamedEvent& named : named_events) {
        std::optional<Event>& event = events.*named.member;
        if (event) event->time_s += by_s;
    }
}

/// Every time in it that is told from the start of the trace.
void delay(Swing& swing, double by_s) {
    swing.from_s += by_s;
    swing.to_s += by_s;
    delay(swing.events, by_s);
    if (swing.vertical) swing.vertical->max_time_s += by_s;
    if (swing.numbers.load_return) swing.numbers.load_return->time_s += by_s;
    if (swing.numbers.momentum) {
        swing.numbers.momentum->from_s += by_s;
        swing.numbers.momentum->to_s += by_s;
    }
}

/// The half minute knows only its own ripples and strikes; the recording will know all.
void tell_kinds_anew(std::vector<Swing>& swings) {
    std::vector<bool> struck;
    for (const Swing& swing : swings) struck.push_back(swing.events.impact->source == EventSource::measured);
    tell_kinds(swings, struck, TriggerTrust::may_miss);
}

}  // namespace

LiveSwingFinder::LiveSwingFinder(double rate_hz, Hand hand, TargetBand band, SwingOptions options)
    : rate_hz_(rate_hz), hand_(hand), band_(band), options_(options) {}

std::size_t LiveSwingFinder::add(const FrameStamp& stamp, const LoadSample& sample) {
    const auto frames = [&](double span_s) {
        return static_cast<std::uint64_t>(std::max(1.0, span_s * rate_hz_));
    };
    if (kept_.empty()) {
        first_counter_ = stamp.counter;
        next_look_ = stamp.counter + frames(look_every_s);
        next_whole_look_ = stamp.counter + frames(whole_look_every_s);
    }
    kept_.push_back({stamp, sample});
    if (stamp.counter < next_look_) return 0;
    next_look_ = stamp.counter + frames(look_every_s);
    look_for_events();
    const double now_s = static_cast<double>(stamp.counter - first_counter_) / rate_hz_;
    const bool just_over = under_way_ && is_over(*under_way_, now_s) &&
                           !(over_ && std::abs(*over_ - under_way_->impact->time_s) < known_swing_s);
    if (just_over) over_ = under_way_->impact->time_s;
    if (stamp.counter < next_whole_look_ && !just_over) return 0;
    if (stamp.counter >= next_whole_look_) next_whole_look_ = stamp.counter + frames(whole_look_every_s);
    forget_old();
    const std::size_t added = look_for_swings();
    if (under_way_ && is_known(under_way_->impact->time_s)) under_way_.reset();
    return added;
}

void LiveSwingFinder::forget_old() {
    const std::uint64_t now = kept_.back().stamp.counter;
    const auto longest = static_cast<std::uint64_t>(kept_s * rate_hz_);
    const auto first =
        std::ranges::find_if(kept_, [&](const Kept& kept) { return kept.stamp.counter + longest >= now; });
    kept_.erase(kept_.begin(), first);
}

LiveSwingFinder::Stretch LiveSwingFinder::newest(LookAt look) const {
    const auto longest = static_cast<std::uint64_t>((look == LookAt::tail ? tail_s : kept_s) * rate_hz_);
    const std::uint64_t now = kept_.back().stamp.counter;
    const auto first = std::ranges::lower_bound(kept_, now - std::min(now, longest), {},
                                                [](const Kept& kept) { return kept.stamp.counter; });
    TraceBuilder builder(rate_hz_);
    builder.reserve(static_cast<std::size_t>(kept_.end() - first));
    for (auto kept = first; kept != kept_.end(); ++kept) builder.add(kept->stamp, kept->sample);
    LoadTrace trace = std::move(builder).finish();
    bridge_impossible_loads(trace);
    return {std::move(trace),
            static_cast<double>(first->stamp.counter - first_counter_) / rate_hz_};
}

bool LiveSwingFinder::is_known(double impact_s) const {
    return !swings_.empty() && impact_s <= swings_.back().events.impact->time_s + known_swing_s;
}

std::vector<StrikeWitnesses> LiveSwingFinder::strikes_s(double until_s) const {
    std::vector<StrikeWitnesses> strikes_s;
    for (const Swing& swing : swings_) {
        if (teaches(swing) && swing.events.impact->time_s < until_s)
            strikes_s.push_back(*swing.strike_after_witnesses_s);
    }
    return strikes_s;
}

std::vector<SwingPortrait> LiveSwingFinder::portraits(double until_s) const {
    std::vector<SwingPortrait> portraits;
    for (auto swing = swings_.rbegin(); swing != swings_.rend() && portraits.size() < most_likened; ++swing) {
        if (swing->portrait && swing->events.impact->time_s < until_s) portraits.push_back(*swing->portrait);
    }
    std::ranges::reverse(portraits);
    return portraits;
}

LoadTrace LiveSwingFinder::stretch(double from_s, double to_s) const {
    if (kept_.empty()) return {};
    const Stretch half_minute = newest(LookAt::half_minute);
    return trace_piece(half_minute.trace, half_minute.offset_s, from_s, to_s);
}

void LiveSwingFinder::look_for_events() {
    under_way_.reset();
    if (!levels_ || levels_->body_weight_n <= 0.0) return;
    const Stretch tail = newest(LookAt::tail);
    if (tail.trace.size() < 2) return;
    const StanceSignals signals = stance_signals(tail.trace, hand_, options_, levels_);
    const std::vector<SwingCandidate> found = find_swings(signals, options_, portraits(tail.offset_s));
    if (found.empty()) return;
    const std::size_t end = signals.size() - 1;
    const SwingMotion motion = swing_motion(tail.trace, hand_, signals, found.back(), end, options_);
    const StrikeLags lags = learn_strike_lags(strikes_s(std::numeric_limits<double>::infinity()));
    SwingEvents events = find_events(tail.trace, motion, signals, found.back(), end, options_, {}, lags);
    if (!events.impact) return;
    delay(events, tail.offset_s);
    if (!is_known(events.impact->time_s)) under_way_ = events;
}

std::size_t LiveSwingFinder::look_for_swings() {
    const Stretch half_minute = newest(LookAt::half_minute);
    const LoadTrace& trace = half_minute.trace;
    if (trace.size() < 2) return 0;
    levels_ = stance_signals(trace, hand_, options_);
    const double sure_from_s = half_minute.offset_s > 0.0 ? unsure_at_start_s : 0.0;
    std::size_t added = 0;
    // Later ones are found once more.
    const EarlierSwings earlier{strikes_s(half_minute.offset_s), portraits(half_minute.offset_s)};
    for (Swing swing : analyse_swings(trace, hand_, band_, options_, {}, earlier)) {
        if (!swing.events.impact || swing.events.impact->time_s < sure_from_s) continue;
        if (!is_over(swing.events, trace.time_s.back())) continue;  // both from the start of what is kept
        delay(swing, half_minute.offset_s);
        const double now_s = half_minute.offset_s + trace.time_s.back();
        if (is_known(swing.events.impact->time_s)) {
            complete(std::move(swing), now_s);
            continue;
        }
        swing.index = swings_.size() + 1;
        to_complete_ = !is_complete(swing.events, now_s);
        swings_.push_back(std::move(swing));
        ++added;
    }
    tell_kinds_anew(swings_);
    return added;
}

void LiveSwingFinder::complete(Swing swing, double now_s) {
    Swing& last = swings_.back();
    const double apart_s = std::abs(swing.events.impact->time_s - last.events.impact->time_s);
    if (!to_complete_ || apart_s > known_swing_s || !is_complete(swing.events, now_s)) return;
    swing.index = last.index;
    last = std::move(swing);
    to_complete_ = false;
}

}  // namespace footing
