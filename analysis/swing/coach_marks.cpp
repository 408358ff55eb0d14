#include "analysis/swing/coach_marks.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace footing {

namespace {
constexpr double mark_u_s = 0.010;
constexpr double half_address_s = 0.25;
}  // namespace

bool CoachMark::empty() const {
    return marked_as == MarkedAs::swing && !kind &&
           std::ranges::none_of(event_s, [](const auto& time_s) { return time_s.has_value(); });
}

bool CoachMarks::empty() const {
    return trigger == TriggerTrust::may_miss &&
           std::ranges::all_of(swings, [](const CoachMark& mark) { return mark.empty(); });
}

std::optional<OutOfOrder> out_of_order(const CoachMark& mark) {
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        if (!mark.event_s[i]) continue;
        if (last && *mark.event_s[i] <= *mark.event_s[*last]) return OutOfOrder{*last, i};
        last = i;
    }
    return std::nullopt;
}

const CoachMark* mark_near(const CoachMarks& marks, double impact_s) {
    const CoachMark* nearest = nullptr;
    for (const CoachMark& mark : marks.swings) {
        const double off_s = std::abs(mark.near_s - impact_s);
        if (off_s > same_swing_s) continue;
        if (nearest == nullptr || off_s < std::abs(nearest->near_s - impact_s)) nearest = &mark;
    }
    return nearest;
}

SwingEvents marked_events(const CoachMark& mark) {
    SwingEvents events;
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        if (!mark.event_s[i]) continue;
        const bool is_address = named_events[i].member == &SwingEvents::address;
        const double u_s = is_address ? half_address_s / std::numbers::sqrt3 : mark_u_s;
        events.*named_events[i].member = Event{*mark.event_s[i], u_s, EventSource::coach};
    }
    return events;
}

void drop_contradicted(SwingEvents& events) {
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        const std::optional<Event>& marked = events.*named_events[i].member;
        if (!marked || marked->source != EventSource::coach) continue;
        for (std::size_t k = 0; k < named_events.size(); ++k) {
            std::optional<Event>& other = events.*named_events[k].member;
            if (!other || other->source == EventSource::coach) continue;
            if ((k < i && other->time_s > marked->time_s) || (k > i && other->time_s < marked->time_s))
                other.reset();
        }
    }
}

}  // namespace footing
