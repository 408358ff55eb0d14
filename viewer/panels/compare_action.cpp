#include "viewer/panels/compare_action.h"

#include <algorithm>
#include <utility>

#include "analysis/swing/swing_set.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

void pick_kind(ViewState& state, SwingKind kind) {
    for (const ComparedSwing& swing : compared_list(state)) {
        if (compared_kind(state, swing) == kind) state.compare->picked.push_back(swing);
    }
}

/// The shot that the row is on, or the one that follows its practice swings, and these.
void pick_shot_and_practice(ViewState& state) {
    CompareDesk& desk = *state.compare;
    const std::vector<ComparedSwing> list = compared_list(state);
    const auto kind = [&](std::size_t row) { return compared_kind(state, list[row]); };
    while (desk.shot + 1 < list.size() && kind(desk.shot) == SwingKind::practice &&
           list[desk.shot + 1].lesson == list[desk.shot].lesson)
        ++desk.shot;
    if (desk.shot >= list.size() || kind(desk.shot) == SwingKind::practice) return;
    std::size_t first = desk.shot;
    while (first > 0 && list[first - 1].lesson == list[desk.shot].lesson &&
           kind(first - 1) == SwingKind::practice)
        --first;
    desk.picked.assign(list.begin() + static_cast<std::ptrdiff_t>(first),
                       list.begin() + static_cast<std::ptrdiff_t>(desk.shot) + 1);
}

struct ApplyToCompare {
    ViewState state;

    [[nodiscard]] CompareDesk& desk() { return *state.compare; }

    void changed() { ++desk().revision; }

    void operator()(const ShowCompare&) {
        if (!state.lesson || state.lesson->swings.empty()) return;
        if (!state.compare) {
            state.compare.emplace();
            pick_again(state);
            if (desk().picked.size() < fewest_counted_shots) {
                desk().how = Picked::all;
                pick_again(state);
            }
        }
        const std::vector<ComparedSwing> list = compared_list(state);
        const auto here = std::ranges::find(list, ComparedSwing{0, state.chosen.value_or(0)});
        if (here != list.end()) desk().row = static_cast<std::size_t>(here - list.begin());
        state.front = Front::compare;
        changed();
    }

    void operator()(const HideCompare&) {
        if (state.problem) {
            state.problem.reset();
        } else {
            state.front = Front::swings;
        }
    }

    void operator()(const HearComparison& action) {
        if (state.compare && action.comparison) desk().comparison = action.comparison;
    }

    void operator()(const CompareWith& action) {
        if (!state.lesson || state.lesson->swings.empty()) {
            state.notice = "Open a lesson first (Enter); then C lays another one beside it.";
            return;
        }
        (*this)(ShowCompare{});
        desk().other_file = action.file;
    }

    void operator()(const HearOther& action) {
        if (!state.compare || !action.lesson) return;
        desk().other = action.lesson;
        if (desk().how == Picked::by_hand || desk().how == Picked::shot_and_practice)
            desk().how = Picked::shots;
        pick_again(state);
    }

    void operator()(const DropOther&) {
        if (!state.compare) return;
        desk().other_file.clear();
        desk().other.reset();
        pick_again(state);
    }

    void operator()(const PickKind& action) {
        if (!state.compare) return;
        desk().how = action.how;
        desk().shot = desk().row;
        pick_again(state);
    }

    void operator()(const MoveInList& action) {
        if (!state.compare) return;
        const auto last = static_cast<std::ptrdiff_t>(compared_list(state).size()) - 1;
        const auto here = static_cast<std::ptrdiff_t>(desk().row) + action.step;
        desk().row =
            static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(here, 0, std::max<std::ptrdiff_t>(last, 0)));
    }

    void operator()(const PickSwing& action) {
        const std::vector<ComparedSwing> list =
            state.compare ? compared_list(state) : std::vector<ComparedSwing>{};
        if (action.row >= list.size()) return;
        desk().row = action.row;
        const ComparedSwing swing = list[action.row];
        std::vector<ComparedSwing> picked;
        for (const ComparedSwing& one : list) {
            if (is_picked(desk(), one) != (one == swing)) picked.push_back(one);
        }
        desk().picked = std::move(picked);
        desk().how = Picked::by_hand;
        changed();
    }

    void operator()(const PickThis&) {
        if (state.compare) (*this)(PickSwing{desk().row});
    }

    void operator()(const AlignOnNext&) {
        if (!state.compare) return;
        desk().event = (desk().event + 1) % named_events.size();
        changed();
    }
};

}  // namespace

void pick_again(ViewState& state) {
    if (!state.compare) return;
    CompareDesk& desk = *state.compare;
    const std::vector<ComparedSwing> list = compared_list(state);
    desk.row = list.empty() ? 0 : std::min(desk.row, list.size() - 1);
    ++desk.revision;
    if (desk.how == Picked::by_hand) {
        std::erase_if(desk.picked, [&](const ComparedSwing& swing) {
            return std::ranges::find(list, swing) == list.end();
        });
        return;
    }
    desk.picked.clear();
    switch (desk.how) {
        case Picked::shots:
            return pick_kind(state, SwingKind::shot);
        case Picked::practice:
            return pick_kind(state, SwingKind::practice);
        case Picked::shot_and_practice:
            return pick_shot_and_practice(state);
        case Picked::all:
        case Picked::by_hand:
            desk.picked = list;
            return;
    }
}

ViewState carry_out_compare(ViewState state, const CompareAction& action) {
    ApplyToCompare applied{std::move(state)};
    std::visit(applied, action);
    return std::move(applied.state);
}

}  // namespace footing
