#include "viewer/panels/lesson_action.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "analysis/report/figure_scale.h"
#include "viewer/panels/compare_action.h"
#include "viewer/panels/label_subject.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

constexpr double shortest_replay_s = 4.0;      // the coach has at least so long to look, after each key too
constexpr double still_before_set_up_s = 0.7;  // the next set-up is one that is held
constexpr std::size_t longest_entry = 6;

/// The word after `now` in a list (word_after). Where none was said yet, the one at hand.
template <typename Words>
std::string next_word(const Words& words, const std::string& now, const std::string& at_hand) {
    if (now.empty() && !at_hand.empty()) return at_hand;
    return word_after(words, now);
}

struct ApplyToLesson {
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

    /// Who still says something of the swing on show still looks at it.
    void look_longer() {
        if (desk().live) desk().replay_since_s = desk().live->progress.duration_s;
    }

    /// W or E: `word` is that of the desk, `of_label` that of a label.
    template <typename Words>
    void say_of(std::optional<std::size_t> place, const Words& words, std::string LessonDesk::*word,
                std::string SwingLabel::*of_label) {
        const std::string now = place ? desk().labels[*place].*of_label : "";
        const std::string next =
            place ? next_word(words, now, desk().*word) : next_word(words, desk().*word, "");
        if (holds_from_now_on(desk(), place)) desk().*word = next;
        if (place) edit(*place, [&](SwingLabel& label) { label.*of_label = next; });
    }

    void keep_carry(double carry_m) {
        const std::size_t place = desk().entry_swing;
        const bool found_practice = state.lesson->swings[place].kind == SwingKind::practice;
        edit(place, [&](SwingLabel& label) {
            label.carry_m = carry_m;
            // A ball that flew was struck, whatever the load looked like.
            if (found_practice && label.word == CoachWord::not_said) label.word = CoachWord::shot;
        });
        desk().entry.clear();
        tell_of_carry_left_out(place);
        if (lacks_wedge_or_length(desk().labels[place])) {
            desk().asked = place;
        } else {
            settle(place);
        }
    }

    /// Nothing more is asked of that swing: W and E go on to those to come.
    void settle(std::size_t place) {
        desk().asked.reset();
        if (!holds_from_now_on(desk(), place)) return;
        desk().club_unsaid = Unsaid::no;
        desk().length_unsaid = Unsaid::no;
    }

    void leave_asked() {
        const std::size_t place = *desk().asked;
        settle(place);
        if (!lacks_wedge_or_length(desk().labels[place])) return;
        state.notice = fmt::format(
            "Swing {} keeps its carry, but the distances leave it out until wedge and length are said.",
            state.lesson->swings[place].index);
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
        desk().unseen = 0;
        desk().since_replay = SinceReplay::still_in_finish;
        desk().replay_since_s = desk().live->progress.duration_s;
    }

    /// The same swings, the last one by now as the recording will show it; the coach may be looking at it.
    void take_completed(const std::shared_ptr<const LessonResult>& lesson) {
        state.lesson = lesson;
        state.overview = std::make_shared<Overview>(make_overview(lesson->trace));
    }

    /// A page of the book: keys that are meant for it must not come upon a swing.
    [[nodiscard]] bool is_at_the_book() const { return state.book && state.front == Front::book; }

    /// What the coach chose to look at, or is typing for, does not make way for what is caught meanwhile.
    [[nodiscard]] bool is_at_another_swing() {
        if (is_at_the_book()) return true;
        const bool held = desk().showing == Showing::replay && desk().turning == Turning::held_by_coach;
        return held || !desk().entry.empty() || state.overlay == Overlay::numbers;
    }

    void show_unseen() {
        if (desk().unseen > 0 && !is_at_another_swing() && !desk().asked) show_newest(desk().live->lesson);
    }

    void turn_to_set_up_when_ready() {
        if (desk().showing != Showing::replay || state.overlay == Overlay::numbers) return;
        const SetUpReading& now = desk().live->set_up;
        if (now.stance != Stance::still) desk().since_replay = SinceReplay::moved;
        const bool seen = desk().live->progress.duration_s - desk().replay_since_s >= shortest_replay_s;
        if (desk().turning == Turning::by_itself && seen && desk().since_replay == SinceReplay::moved &&
            now.still_for_s >= still_before_set_up_s) {
            desk().showing = Showing::set_up;
            state.playing = Playing::paused;
        }
    }

    void take_caught(const std::shared_ptr<const LessonResult>& lesson) {
        const std::size_t before = desk().labels.size();
        desk().labels.resize(lesson->swings.size(),
                             SwingLabel{CoachWord::not_said, desk().club, desk().length, std::nullopt});
        for (auto* steps : {&desk().undo, &desk().redo}) {
            for (std::vector<SwingLabel>& step : *steps) {
                const auto known_to_it = static_cast<std::ptrdiff_t>(step.size());
                step.insert(step.end(), desk().labels.begin() + known_to_it, desk().labels.end());
            }
        }
        desk().club_unsaid = desk().club.empty() ? Unsaid::yes : Unsaid::no;
        desk().length_unsaid = desk().length.empty() ? Unsaid::yes : Unsaid::no;
        if (is_at_another_swing()) {
            desk().unseen += lesson->swings.size() - before;
            if (is_at_the_book())
                state.notice =
                    fmt::format("Swing {} was caught.  Esc goes back to the lesson, where it waits.",
                                lesson->swings.back().index);
            take_completed(lesson);
            pick_again(state);
            return;
        }
        show_newest(lesson);
        desk().asked.reset();  // what is still missing stays on the screen (carries_without_wedge)
    }

    void operator()(const HearLesson& action) {
        if (!action.live) return;
        desk().live = action.live;
        const auto& lesson = action.live->lesson;
        if (lesson && lesson->swings.size() > desk().labels.size()) {
            take_caught(lesson);
        } else if (lesson && lesson != state.lesson) {
            take_completed(lesson);
        }
        turn_to_set_up_when_ready();
    }

    void operator()(const SayWord& action) {
        look_longer();
        const auto place = labelled_swing(state);
        if (!place) return;
        edit(*place, [&](SwingLabel& label) {
            label.word = label.word == action.word ? CoachWord::not_said : action.word;
        });
        tell_of_carry_left_out(*place);
    }

    /// A carry that the distances leave out because of what the swing is called (U4: nothing goes silently).
    void tell_of_carry_left_out(std::size_t place) {
        const SwingLabel& label = desk().labels[place];
        if (!carry_left_out(label)) return;
        state.notice = fmt::format(
            "Swing {} is {}: its carry, {}, is left out of the distances.  Ctrl Z takes that "
            "back, S makes it a shot.",
            state.lesson->swings[place].index, label.word == CoachWord::practice ? "practice" : "no swing",
            carry_words(*label.carry_m, desk().unit));
    }

    void operator()(const ChangeClub&) {
        look_longer();
        say_of(swing_of_wedge(state), desk().clubs, &LessonDesk::club, &SwingLabel::club);
    }

    void operator()(const ChangeLength&) {
        look_longer();
        say_of(swing_of_length(state), length_labels, &LessonDesk::length, &SwingLabel::length);
    }

    void operator()(const TypeCarry& action) {
        look_longer();
        const bool digit = action.character >= '0' && action.character <= '9';
        const bool point = action.character == '.' && desk().entry.find('.') == std::string::npos;
        const auto place = labelled_swing(state);
        if (!(digit || point) || desk().entry.size() >= longest_entry || !place) return;
        if (desk().entry.empty()) desk().entry_swing = *place;
        desk().entry += action.character;
        desk().entry_far = FarCarry::asked_about;
    }

    void operator()(const EraseCarry&) {
        if (!desk().entry.empty()) desk().entry.pop_back();
        desk().entry_far = FarCarry::asked_about;
    }

    void operator()(const Enter&) {
        if (!desk().entry.empty()) {
            look_longer();
            const std::optional<double> carry_m = carry_of_entry(desk().entry, desk().unit);
            if (!carry_m) return;  // stays to be corrected
            if (*carry_m > wedge_reach_m && desk().entry_far == FarCarry::asked_about) {
                desk().entry_far = FarCarry::taken;  // by the next Enter
                return;
            }
            desk().entry_far = FarCarry::asked_about;
            keep_carry(*carry_m);
            return;
        }
        if (desk().asked) return leave_asked();
        if (desk().showing == Showing::replay) {
            desk().turning = Turning::by_itself;
            if (desk().unseen > 0) return;  // it comes up now (show_unseen)
            desk().showing = Showing::set_up;
            state.playing = Playing::paused;
        } else if (!desk().labels.empty()) {
            desk().showing = Showing::replay;
            desk().turning = Turning::held_by_coach;
        }
    }

    void operator()(const Undo&) {
        if (desk().undo.empty()) {
            state.notice = "Nothing was said in this lesson that could be undone.";
            return;
        }
        desk().redo.push_back(std::exchange(desk().labels, std::move(desk().undo.back())));
        desk().undo.pop_back();
        labels_went_back();
    }

    void operator()(const Redo&) {
        if (desk().redo.empty()) {
            state.notice = "Nothing was undone that could be done again.";
            return;
        }
        desk().undo.push_back(std::exchange(desk().labels, std::move(desk().redo.back())));
        desk().redo.pop_back();
        labels_went_back();
    }

    void labels_went_back() {
        if (desk().asked && !desk().labels[*desk().asked].carry_m) desk().asked.reset();
        pick_again(state);
    }

    void operator()(const StopLesson&) { desk().wish = LessonWish::stop; }
};

}  // namespace

ViewState carry_out_lesson(ViewState state, const LessonAction& action) {
    if (!state.desk) return state;
    ApplyToLesson applied{std::move(state)};
    std::visit(applied, action);
    applied.show_unseen();
    return std::move(applied.state);
}

}  // namespace footing
