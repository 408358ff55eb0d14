#include "analysis/swing/analyse_swings.h"

#include <algorithm>
#include <cmath>

#include "analysis/swing/events.h"
#include "analysis/swing/measures.h"
#include "analysis/swing/stance_measures.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"

namespace footing {

namespace {

constexpr double shown_before_address_s = 0.3;
constexpr double shown_after_finish_s = 0.7;
constexpr double shown_after_impact_s = 1.5;

/// A shot struck the ball: the trigger says so. Where it speaks in other swings, silence means practice.
SwingKind kind_of(const Swing& swing, bool trigger_speaks) {
    if (swing.events.impact && swing.events.impact->source == EventSource::measured) return SwingKind::shot;
    return trigger_speaks ? SwingKind::practice : SwingKind::unknown;
}

void set_span(Swing& swing, double fallback_from_s, double end_s) {
    const SwingEvents& events = swing.events;
    swing.from_s =
        events.address ? events.address->time_s - events.address->u_s * std::sqrt(3.0) : fallback_from_s;
    swing.from_s = std::max(0.0, swing.from_s - shown_before_address_s);
    if (events.finish) {
        swing.to_s = events.finish->time_s + shown_after_finish_s;
    } else if (events.impact) {
        swing.to_s = events.impact->time_s + shown_after_impact_s;
    } else {
        swing.to_s = end_s;
    }
    swing.to_s = std::min(swing.to_s, end_s);
}

}  // namespace

std::vector<Swing> analyse_swings(const LoadTrace& trace, Hand hand, const TargetBand& band,
                                  const SwingOptions& options) {
    std::vector<Swing> swings;
    const StanceSignals signals = stance_signals(trace, hand, options);
    if (signals.size() == 0 || signals.body_weight_n <= 0.0) return swings;
    const std::vector<SwingCandidate> found = find_swings(signals, options);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::size_t next_from = i + 1 < found.size() ? found[i + 1].quiet_from : signals.size() - 1;
        const SwingMotion motion = swing_motion(trace, hand, signals, found[i], next_from, options);
        Swing swing;
        swing.index = i + 1;
        swing.events = find_events(trace, motion, signals, found[i], next_from, options);
        swing.lead_share = measure_shares(trace, motion, swing.events, signals.feet_known, band, options);
        swing.tempo = measure_tempo(swing.events);
        swing.vertical = measure_vertical(motion, swing.events, signals.body_weight_n);
        swing.smoothness = measure_smoothness(motion, swing.events);
        swing.cop_m = measure_cop(trace, hand, swing.events, options);
        swing.stance = measure_stance(trace, swing.events);
        swing.feet = measure_feet(trace, swing.events);
        set_span(swing, signals.time_s(static_cast<double>(found[i].quiet_from)), trace.time_s.back());
        swings.push_back(swing);
    }
    const bool trigger_speaks = std::ranges::any_of(swings, [](const Swing& swing) {
        return swing.events.impact && swing.events.impact->source == EventSource::measured;
    });
    for (Swing& swing : swings) swing.kind = kind_of(swing, trigger_speaks);
    return swings;
}

std::optional<double> body_weight_n(const LoadTrace& trace, const SwingOptions& options) {
    const StanceSignals signals = stance_signals(trace, Hand::right, options);
    if (signals.body_weight_n <= 0.0) return std::nullopt;
    return signals.body_weight_n;
}

}  // namespace footing
