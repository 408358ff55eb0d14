#include "analysis/report/figure_scale.h"

#include <algorithm>

#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"

namespace footing {

namespace {

constexpr double room_for_values_px = 560.0;  // from this width on, the labels carry the shares too

/// Margins of the trace, px before scaling. Left: event labels and leaders; right: times.
struct Margins {
    double left;
    double right;
    double bottom;
};

Margins margins_for(const SwingFigureOptions& options) {
    const bool with_values = options.width / options.text_scale >= room_for_values_px;
    return {(with_values ? 200.0 : 104.0) + options.edge, 48.0 + options.edge, 12.0};
}

SwingScale scale_with(const LessonResult& lesson, const SwingFigureOptions& options, double feet_top,
                      double feet_height, double head_room) {
    const double k = options.text_scale;
    const Margins margins = margins_for(options);
    SwingScale scale;
    scale.target_side = options.target_side;
    const double left = margins.left * k;
    const double right = std::max(options.width - margins.right * k, left + 10.0);
    const double trace_top = feet_top + feet_height + head_room;
    scale.feet = {left, feet_top, right, feet_top + feet_height};
    scale.trace = {left, trace_top, right, std::max(options.height - margins.bottom * k, trace_top + 10.0)};

    const std::vector<const Swing*> swings = chosen_swings(lesson, options);
    if (swings.empty()) return scale;
    scale.zero_s = zero_of(*swings.front());
    scale.from_s = swings.front()->from_s - scale.zero_s;
    scale.to_s = swings.front()->to_s - scale.zero_s;
    for (const Swing* swing : swings) {
        scale.from_s = std::min(scale.from_s, swing->from_s - zero_of(*swing));
        scale.to_s = std::max(scale.to_s, swing->to_s - zero_of(*swing));
    }
    if (!(scale.to_s - scale.from_s >= 0.01)) scale.to_s = scale.from_s + 1.0;
    return scale;
}

}  // namespace

double SwingScale::x_of_share(double share) const {
    const double along = target_side == TargetSide::right ? share : 1.0 - share;
    return trace.left + along * trace.width();
}

double SwingScale::share_at(double x) const {
    const double along = (x - trace.left) / trace.width();
    return target_side == TargetSide::right ? along : 1.0 - along;
}

double SwingScale::y_of(double from_zero_s) const {
    return trace.top + (from_zero_s - from_s) / (to_s - from_s) * trace.height();
}

double SwingScale::time_at(double y) const {
    return zero_s + from_s + (y - trace.top) / trace.height() * (to_s - from_s);
}

namespace {
struct Anchor {
    std::optional<Event> SwingEvents::*member;
    const char* name;
};
constexpr Anchor anchors[] = {{&SwingEvents::impact, "impact"},
                              {&SwingEvents::turnaround, "turnaround"},
                              {&SwingEvents::top, "top"},
                              {&SwingEvents::takeaway, "takeaway"},
                              {&SwingEvents::address, "address"}};
}  // namespace

double zero_of(const Swing& swing) {
    for (const Anchor& anchor : anchors) {
        if (const auto& event = swing.events.*anchor.member) return event->time_s;
    }
    return swing.from_s;
}

const char* zero_name(const Swing& swing) {
    for (const Anchor& anchor : anchors) {
        if (swing.events.*anchor.member) return anchor.name;
    }
    return "start";
}

SwingScale share_figure_scale(const LessonResult& lesson, const SwingFigureOptions& options) {
    const double k = options.text_scale;
    return scale_with(lesson, options, 24.0 * k, 0.0, 36.0 * k);
}

SwingScale swing_figure_scale(const LessonResult& lesson, const SwingFigureOptions& options) {
    const double k = options.text_scale;
    const double feet_height = std::clamp(0.26 * options.height, 56.0 * k, 280.0 * k);
    return scale_with(lesson, options, 24.0 * k, feet_height, 40.0 * k);
}

}  // namespace footing
