#include "viewer/panels/lesson_action.h"

#include <algorithm>
#include <utility>

#include "analysis/report/figure_scale.h"
#include "viewer/panels/compare_action.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

constexpr double shortest_replay_s = 4.0;      // the coach has at least so long to look
constexpr double still_before_set_up_s = 0.7;  // the next set-up is one that is held
constexpr std::size_t longest_entry = 6;

/// The word after `now` in a list; after the last one the first.
template <typename Words>
std::string next_word(const Words& words, const std::string& now) {
    const auto found = std::find(words.begin(), words.end(), now);
    if (found == words.end() || std::next(found) == words.end()) return *words.begin();
    return *std::next(found);
}

struct Apply {
    ViewState state;

    [[nodiscard]] LessonDesk& desk() { return *state.desk; }

    /// Changes the labels and keeps what they were, unless nothing is different (U5).
    template <typename Change>
    void edit(std::size_t place, Change change) {
        if (place >= desk().labels.size()) return;
        std::vector<SwingLabel> before = desk().labels;
        change(desk().labels[place]);
        if (desk().labels == before) return;
        pick_again(state);
        desk().undo.push_back(std::move(before));
        desk().redo.clear();
    }

    void show_newest(const std::shared_ptr<const LessonResult>& lesson) {
        state.lesson = lesson;
        state.overview = std::make_shared<Overview>(make_overview(lesson->trace));
        state.chosen = lesson->swings.size() - 1;
        state.list_top.reset();
        state.playing = Playing::paused;
        state.head_s = zero_of(lesson->swings.back());
        if (state.front != Front::compare) state.front = Front::swings;
        pick_again(state);
        desk().showing = Showing::replay;
        desk().turning = Turning::by_itself;
        desk().since_replay = SinceReplay::still_in_finish;
        desk().replay_since_s = desk().live->progress.duration_s;
    }

    /// The same swings, the last one by now as the recording will show it; the coach may be looking at it.
    void take_completed(const std::shared_ptr<const LessonResult>& lesson) {
        state.lesson = lesson;
        state.overview = std::make_shared<Overview>(make_overview(lesson->trace));
    }

    void turn_to_set_up_when_ready() {
        if (desk().showing != Showing::replay) return;
        const SetUpReading& now = desk().live->set_up;
        if (now.stance != Stance::still) desk().since_replay = SinceReplay::moved;
        const bool seen = desk().live->progress.duration_s - desk().replay_since_s >= shortest_replay_s;
        if (desk().turning == Turning::by_itself && seen && desk().since_replay == SinceReplay::moved &&
            now.still_for_s >= still_before_set_up_s) {
            desk().showing = Showing::set_up;
            state.playing = Playing::paused;
        }
    }

    void operator()(const HearLesson& action) {
        if (!action.live) return;
        desk().live = action.live;
        const auto& lesson = action.live->lesson;
        if (lesson && lesson->swings.size() > desk().labels.size()) {
            desk().labels.resize(lesson->swings.size(),
                                 SwingLabel{CoachWord::not_said, desk().club, desk().length, std::nullopt});
            for (auto* steps : {&desk().undo, &desk().redo}) {
                for (std::vector<SwingLabel>& step : *steps) {
                    const auto known_to_it = static_cast<std::ptrdiff_t>(step.size());
                    step.insert(step.end(), desk().labels.begin() + known_to_it, desk().labels.end());
                }
            }
            show_newest(lesson);
        } else if (lesson && lesson != state.lesson) {
            take_completed(lesson);
        }
        turn_to_set_up_when_ready();
    }

    void operator()(const SayWord& action) {
        if (const auto place = labelled_swing(state)) {
            edit(*place, [&](SwingLabel& label) {
                label.word = label.word == action.word ? CoachWord::not_said : action.word;
            });
        }
    }

    void operator()(const ChangeClub&) {
        desk().club = next_word(desk().clubs, desk().club);
        if (desk().showing != Showing::replay) return;
        if (const auto place = labelled_swing(state))
            edit(*place, [&](SwingLabel& label) { label.club = desk().club; });
    }

    void operator()(const ChangeLength&) {
        desk().length = next_word(length_labels, desk().length);
        if (desk().showing != Showing::replay) return;
        if (const auto place = labelled_swing(state))
            edit(*place, [&](SwingLabel& label) { label.length = desk().length; });
    }

    void operator()(const TypeCarry& action) {
        const bool digit = action.character >= '0' && action.character <= '9';
        const bool point = action.character == '.' && desk().entry.find('.') == std::string::npos;
        const auto place = labelled_swing(state);
        if (!(digit || point) || desk().entry.size() >= longest_entry || !place) return;
        if (desk().entry.empty()) desk().entry_swing = *place;
        desk().entry += action.character;
    }

    void operator()(const EraseCarry&) {
        if (!desk().entry.empty()) desk().entry.pop_back();
    }

    void operator()(const Enter&) {
        if (!desk().entry.empty()) {
            const std::optional<double> carry_m = carry_of_entry(desk().entry, desk().unit);
            if (!carry_m) return;  // stays to be corrected
            edit(desk().entry_swing, [&](SwingLabel& label) { label.carry_m = carry_m; });
            desk().entry.clear();
            return;
        }
        if (desk().showing == Showing::replay) {
            desk().showing = Showing::set_up;
            desk().turning = Turning::by_itself;
            state.playing = Playing::paused;
        } else if (!desk().labels.empty()) {
            desk().showing = Showing::replay;
            desk().turning = Turning::held_by_coach;
        }
    }

    void operator()(const Undo&) {
        if (desk().undo.empty()) return;
        desk().redo.push_back(std::exchange(desk().labels, std::move(desk().undo.back())));
        desk().undo.pop_back();
        pick_again(state);
    }

    void operator()(const Redo&) {
        if (desk().redo.empty()) return;
        desk().undo.push_back(std::exchange(desk().labels, std::move(desk().redo.back())));
        desk().redo.pop_back();
        pick_again(state);
    }

    void operator()(const StopLesson&) { desk().wish = LessonWish::stop; }
};

}  // namespace

ViewState carry_out_lesson(ViewState state, const LessonAction& action) {
    if (!state.desk) return state;
    Apply applied{std::move(state)};
    std::visit(applied, action);
    return std::move(applied.state);
}

std::optional<std::size_t> labelled_swing(const ViewState& state) {
    if (!state.desk || state.desk->labels.empty()) return std::nullopt;
    const bool replayed = state.desk->showing == Showing::replay;
    if (replayed && state.chosen && *state.chosen < state.desk->labels.size()) return state.chosen;
    return state.desk->labels.size() - 1;
}

}  // namespace footing
