#include "viewer/panels/view_action.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/report/figure_scale.h"

namespace footing {

namespace {

/// What the text has become, and why it is no larger.
std::string text_size_words(const ViewState& state) {
    const auto percent = [](float size) { return fmt::format("{:.0f} %", 100.0F * size); };
    const float wanted = text_sizes[state.text_size];
    std::string words = "Text at " + percent(wanted) + " of its usual size";
    if (wanted > state.text_room + 0.01F)
        words += ", but this window has room for " + percent(state.text_room) +
                 ": a larger window shows it larger";
    if (state.text_size + 1 == text_sizes.size()) return words + ". It gets no larger.";
    return words + (state.text_size == 0 ? ". It gets no smaller." : ".");
}

struct ApplyToView {
    ViewState state;

    [[nodiscard]] bool has_swing(std::size_t place) const {
        return state.lesson && place < state.lesson->swings.size();
    }

    void move_head(double time_s) {
        if (!state.lesson || std::isnan(time_s)) return;
        const TimeSpan span = played_span(state);
        state.head_s = std::clamp(time_s, span.from_s, std::max(span.from_s, span.to_s));
    }

    /// A swing of the lesson under way that the coach turned to stays until they leave it.
    void hold_replay() {
        if (state.desk && state.desk->showing == Showing::replay)
            state.desk->turning = Turning::held_by_coach;
    }

    void operator()(const ChooseSwing& action) {
        if (!has_swing(action.swing) || state.chosen == action.swing) return;
        // The same moment of the swing stays on show, so that paging through swings compares them.
        const Swing* before = chosen_swing(state);
        const Swing& next = state.lesson->swings[action.swing];
        const double from_zero_s = before ? state.head_s - zero_of(*before) : 0.0;
        state.chosen = action.swing;
        state.list_top.reset();
        hold_replay();
        const TimeSpan span = played_span(state);
        move_head(std::clamp(zero_of(next) + from_zero_s, span.from_s, span.to_s));
    }

    void operator()(const CompareSwing& action) {
        if (!has_swing(action.swing)) return;
        if (state.compared == action.swing) {
            state.compared.reset();
        } else {
            state.compared = action.swing;
        }
    }

    void operator()(const KeepForComparison&) {
        if (!state.chosen) return;
        if (state.compared) {
            state.compared.reset();
        } else {
            state.compared = state.chosen;
        }
    }

    void operator()(const ChooseNeighbour& action) {
        if (!state.lesson || state.lesson->swings.empty()) return;
        const auto last = static_cast<std::ptrdiff_t>(state.lesson->swings.size()) - 1;
        const auto here = state.chosen ? static_cast<std::ptrdiff_t>(*state.chosen) : -action.step;
        (*this)(
            ChooseSwing{static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(here + action.step, 0, last))});
    }

    void operator()(const MoveHead& action) { move_head(action.time_s); }

    void operator()(const ScrubTo& action) {
        if (!state.lesson) return;
        state.playing = Playing::paused;
        const std::vector<Swing>& swings = state.lesson->swings;
        const auto under = std::find_if(swings.begin(), swings.end(), [&](const Swing& swing) {
            return action.time_s >= swing.from_s && action.time_s <= swing.to_s;
        });
        const Swing* chosen = chosen_swing(state);
        const bool stays = chosen && action.time_s >= chosen->from_s && action.time_s <= chosen->to_s;
        if (!stays) {
            state.list_top.reset();
            state.chosen.reset();
            if (under != swings.end()) state.chosen = static_cast<std::size_t>(under - swings.begin());
            hold_replay();
        }
        move_head(action.time_s);
    }

    void operator()(const StepTime& action) {
        state.playing = Playing::paused;
        move_head(state.head_s + action.seconds);
    }

    void operator()(const StepSamples& action) {
        if (!state.lesson) return;
        state.playing = Playing::paused;
        const LoadTrace& trace = state.lesson->trace;
        const auto here = nearest_sample(trace, state.head_s);
        if (!here) return;
        const auto last = static_cast<std::ptrdiff_t>(trace.size()) - 1;
        const auto there =
            std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(*here) + action.samples, 0, last);
        move_head(trace.time_s[static_cast<std::size_t>(there)]);
    }

    void operator()(const GoToEvent& action) {
        const Swing* swing = chosen_swing(state);
        if (!swing) return;
        if (const auto& event = swing->events.*action.event) {
            state.playing = Playing::paused;
            move_head(event->time_s);
        }
    }

    void operator()(const TogglePlaying&) {
        if (!state.lesson) return;
        if (state.playing == Playing::running) {
            state.playing = Playing::paused;
            return;
        }
        const TimeSpan span = played_span(state);
        const double sample_s = state.lesson->rate_hz > 0.0 ? 1.0 / state.lesson->rate_hz : 0.0;
        if (state.head_s >= span.to_s - sample_s || state.head_s < span.from_s) state.head_s = span.from_s;
        state.playing = Playing::running;
    }

    void operator()(const ToggleLooping&) {
        state.looping = state.looping == Looping::on ? Looping::off : Looping::on;
    }

    void operator()(const ChangeSpeed& action) {
        const auto last = static_cast<int>(play_speeds.size()) - 1;
        state.speed =
            static_cast<std::size_t>(std::clamp(static_cast<int>(state.speed) + action.step, 0, last));
    }

    void operator()(const ToggleTheme&) { state.theme = next_window_theme(state.theme); }

    void operator()(const ToggleSounds&) {
        state.sounds = state.sounds == Sounds::on ? Sounds::off : Sounds::on;
        state.notice = state.sounds == Sounds::on ? "Sounds are on" : "Sounds are off";
    }

    void operator()(const ChangeTextSize& action) {
        const auto last = static_cast<int>(text_sizes.size()) - 1;
        const int wanted = action.step == 0 ? static_cast<int>(usual_text_size)
                                            : static_cast<int>(state.text_size) + action.step;
        state.text_size = static_cast<std::size_t>(std::clamp(wanted, 0, last));
        state.notice = text_size_words(state);
    }

    void operator()(const ToggleKeys&) {
        state.overlay = state.overlay == Overlay::keys ? Overlay::none : Overlay::keys;
    }

    void operator()(const ToggleNumbers&) {
        if (!state.lesson) return;
        state.overlay = state.overlay == Overlay::numbers ? Overlay::none : Overlay::numbers;
    }

    void operator()(const ScrollList& action) { state.list_top = action.top; }

    void operator()(const CloseOverlay&) {
        const bool closes_nothing_else = state.overlay == Overlay::none && !state.problem;
        if (state.overlay == Overlay::none) (*this)(StopOpening{});
        state.overlay = Overlay::none;
        state.problem.reset();
        state.marking.dragged.reset();
        if (!state.desk) return;
        if (!state.desk->entry.empty()) {
            state.desk->entry.clear();
        } else if (state.desk->asked && closes_nothing_else) {
            (*this)(LessonAction{Enter{}});
        }
    }

    void operator()(const WriteReport& action) {
        if (!state.lesson || state.desk || state.lesson->facts.file.empty()) return;
        const std::string& file = state.lesson->facts.file;
        const bool named_so = file.size() > 3 && file.compare(file.size() - 3, 3, ".h5") == 0;
        state.report_form = action.form;
        state.report_wish = (named_so ? file.substr(0, file.size() - 3) : file) +
                            (action.form == ReportForm::brief ? ".short.pdf" : ".pdf");
    }

    void operator()(const OpenFile& action) {
        if (state.desk) {  // it is not put away by a dropped file
            state.notice = "A lesson is under way: end it first (Ctrl E), then drop the file again.";
            return;
        }
        state.opening = action.path;
        state.opening_part = 0.0;
        state.front = Front::swings;
        state.overlay = Overlay::none;
    }
    void operator()(const StopOpening&) { state.opening.clear(); }
    void operator()(const Tell& action) { state.notice = action.sentence; }
    void operator()(const ToggleRecent&) {
        if (state.desk) return;
        state.overlay = state.overlay == Overlay::recent ? Overlay::none : Overlay::recent;
        state.recent_row = 0;
    }
    void operator()(const MoveRecent& action) {
        if (state.recent.empty()) return;
        const auto last = static_cast<std::ptrdiff_t>(state.recent.size()) - 1;
        state.recent_row = static_cast<std::size_t>(
            std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(state.recent_row) + action.step, 0, last));
    }
    void operator()(const OpenRecent& action) {
        if (action.place < state.recent.size()) (*this)(OpenFile{state.recent[action.place]});
    }
    void operator()(const MarkAction& action) { state = carry_out_mark(std::move(state), action); }
    void operator()(const CloseWindow&) {
        if ((is_recording(state) || is_calibrating(state)) && state.overlay != Overlay::ask_to_close) {
            state.overlay = Overlay::ask_to_close;
        } else {
            (*this)(CloseForSure{});
        }
    }
    void operator()(const CloseForSure&) {
        state.overlay = Overlay::none;
        state.life = WindowLife::closing;
        if (state.desk) state.desk->wish = LessonWish::stop;
    }
    void operator()(const BookAction& action) { state = carry_out_book(std::move(state), action); }
    void operator()(const CompareAction& action) { state = carry_out_compare(std::move(state), action); }
    void operator()(const LessonAction& action) {
        // Without a lesson under way the same keys undo marks.
        if (!state.desk && std::holds_alternative<Undo>(action)) {
            if (state.marking.undo.empty()) state.notice = "No mark was made here that could be undone.";
            return (*this)(MarkAction{UndoMark{}});
        }
        if (!state.desk && std::holds_alternative<Redo>(action)) {
            if (state.marking.redo.empty()) state.notice = "No mark was undone that could be made again.";
            return (*this)(MarkAction{RedoMark{}});
        }
        state = carry_out_lesson(std::move(state), action);
    }
};

}  // namespace

ViewState carry_out(ViewState state, const ViewAction& action) {
    ApplyToView applied{std::move(state)};
    std::visit(applied, action);
    return std::move(applied.state);
}

ViewState carry_out(ViewState state, const std::vector<ViewAction>& actions) {
    for (const ViewAction& action : actions) state = carry_out(std::move(state), action);
    return state;
}

ViewState advance(ViewState state, double elapsed_s) {
    if (state.playing != Playing::running || !state.lesson) return state;
    const TimeSpan span = played_span(state);
    state.head_s += elapsed_s * play_speeds[state.speed];
    if (state.head_s < span.to_s) return state;
    if (state.looping == Looping::on && span.to_s > span.from_s) {
        state.head_s = span.from_s + std::fmod(state.head_s - span.from_s, span.to_s - span.from_s);
    } else {
        state.head_s = span.to_s;
        state.playing = Playing::paused;
    }
    return state;
}

}  // namespace footing
