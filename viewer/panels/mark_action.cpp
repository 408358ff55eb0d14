#include "viewer/panels/mark_action.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "viewer/lesson/marks_file.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

constexpr double not_moved_s = 0.0005;
/// An event may be dragged so far out of its swing, as `footing mark` allows.
constexpr double margin_s = 1.0;

bool same(const CoachMark& one, const CoachMark& other) {
    return one.near_s == other.near_s && one.event_s == other.event_s && one.kind == other.kind &&
           one.marked_as == other.marked_as;
}

bool same(const CoachMarks& one, const CoachMarks& other) {
    return std::ranges::equal(one.swings, other.swings,
                              [](const CoachMark& a, const CoachMark& b) { return same(a, b); });
}

struct ApplyMark {
    ViewState state;

    [[nodiscard]] MarksDesk& desk() { return state.marking; }
    [[nodiscard]] const Swing& swing() const { return *chosen_swing(state); }

    /// What is marked of the chosen swing so far; a new mark is kept by its impact.
    [[nodiscard]] CoachMark mark_of_swing() const {
        const double impact_s = swing().events.impact->time_s;
        if (const CoachMark* earlier = mark_near(state.marking.marks, impact_s)) return *earlier;
        CoachMark mark;
        mark.near_s = impact_s;
        return mark;
    }

    /// Puts `mark` in the place of what was said of its swing, unless that is the same (U5).
    void keep(const CoachMark& mark) {
        CoachMarks changed = desk().marks;
        std::erase_if(changed.swings, [&](const CoachMark& one) { return one.near_s == mark.near_s; });
        if (!mark.empty()) changed.swings.push_back(mark);
        std::ranges::sort(changed.swings, {}, &CoachMark::near_s);
        if (same(changed, desk().marks)) return;
        desk().undo.push_back(std::exchange(desk().marks, std::move(changed)));
        desk().redo.clear();
        ++desk().revision;
    }

    void operator()(const DragEvent& action) {
        if (action.event >= named_events.size() || !std::isfinite(action.time_s)) return;
        const double from_s = std::max(swing().from_s - margin_s, 0.0);
        const double to_s = std::min(swing().to_s + margin_s, state.lesson->duration_s);
        const double time_s = std::clamp(action.time_s, from_s, std::max(from_s, to_s));
        desk().dragged = DraggedEvent{action.event, time_s, DraggedEvent::Hold::by_pointer};
        state.playing = Playing::paused;
        const TimeSpan played = played_span(state);
        state.head_s = std::clamp(time_s, played.from_s, std::max(played.from_s, played.to_s));
    }

    void operator()(const DropEvent&) {
        if (!desk().dragged) return;
        const DraggedEvent dragged = *std::exchange(desk().dragged, std::nullopt);
        const auto& found = swing().events.*named_events[dragged.event].member;
        if (found && std::abs(found->time_s - dragged.time_s) < not_moved_s) return;
        CoachMark mark = mark_of_swing();
        mark.event_s[dragged.event] = dragged.time_s;
        if (const auto pair = out_of_order(mark)) {
            state.problem =
                Problem{ProblemKind::command_line, named_events[dragged.event].name, order_words(mark, *pair),
                        "drag it to another instant, or take the other mark back first"};
            return;
        }
        const std::uint64_t before = desk().revision;
        keep(mark);
        if (desk().revision == before) return;
        desk().dragged = DraggedEvent{dragged.event, dragged.time_s, DraggedEvent::Hold::let_go};
    }

    void operator()(const UnmarkEvent&) {
        const double near_s = state.lesson->rate_hz > 0.0 ? 0.51 / state.lesson->rate_hz : 0.005;
        CoachMark mark = mark_of_swing();
        const CoachMark before = mark;
        for (std::optional<double>& marked_s : mark.event_s) {
            if (marked_s && std::abs(*marked_s - state.head_s) <= std::max(near_s, 0.002)) marked_s.reset();
        }
        if (mark.event_s == before.event_s)
            state.notice = "The head stands on no mark of yours: pick a swing's event first.";
        keep(mark);
    }

    void operator()(const UndoMark&) {
        if (desk().undo.empty()) return;
        desk().redo.push_back(std::exchange(desk().marks, std::move(desk().undo.back())));
        desk().undo.pop_back();
        ++desk().revision;
    }

    void operator()(const RedoMark&) {
        if (desk().redo.empty()) return;
        desk().undo.push_back(std::exchange(desk().marks, std::move(desk().redo.back())));
        desk().redo.pop_back();
        ++desk().revision;
    }
};

}  // namespace

bool can_mark(const ViewState& state) {
    const Swing* swing = chosen_swing(state);
    return !state.desk && swing && swing->events.impact.has_value();
}

ViewState carry_out_mark(ViewState state, const MarkAction& action) {
    const bool of_all = std::holds_alternative<UndoMark>(action) || std::holds_alternative<RedoMark>(action);
    const bool possible = of_all ? !state.desk && state.lesson : can_mark(state);
    if (!possible) {
        state.marking.dragged.reset();
        return state;
    }
    ApplyMark applied{std::move(state)};
    std::visit(applied, action);
    return std::move(applied.state);
}

}  // namespace footing
