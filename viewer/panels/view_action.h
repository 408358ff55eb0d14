#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "viewer/panels/book_action.h"
#include "viewer/panels/compare_action.h"
#include "viewer/panels/lesson_action.h"
#include "viewer/panels/mark_action.h"
#include "viewer/panels/view_state.h"

namespace footing {

// What a coach may ask of the window. Panels and keys hand these back; carry_out() is the only place where
// the state changes.

struct ChooseSwing {
    std::size_t swing = 0;  ///< place in lesson->swings
};
struct CompareSwing {
    std::size_t swing = 0;  ///< the same again takes it away
};
/// Keeps the chosen swing beside those chosen later; again: lets it go.
struct KeepForComparison {};
struct ChooseNeighbour {
    int step = 1;  ///< +1 the next swing, -1 the one before
};
/// Within what is played (played_span).
struct MoveHead {
    double time_s = 0.0;
};
/// To an instant of the whole recording: by pressing or dragging on the trace or the timeline. Chooses the
/// swing there; between swings none is chosen.
struct ScrubTo {
    double time_s = 0.0;
};
struct StepTime {
    double seconds = 0.0;
};
struct StepSamples {
    int samples = 1;
};
/// To an event of the chosen swing, where it is known.
struct GoToEvent {
    std::optional<Event> SwingEvents::*event = &SwingEvents::address;
};
struct TogglePlaying {};
struct ToggleLooping {};
struct ChangeSpeed {
    int step = 1;
};
struct ToggleTheme {};
struct ToggleSounds {};
/// Larger or smaller text and all that goes with it; 0: as designed.
struct ChangeTextSize {
    int step = 1;
};
struct ToggleKeys {};
/// All teaching numbers of the chosen swing, over everything.
struct ToggleNumbers {};
/// The first swing that the list shows; until another is chosen by a key.
struct ScrollList {
    std::size_t top = 0;
};
struct CloseOverlay {};
/// Of the recording that is open, beside it.
struct WriteReport {
    ReportForm form = ReportForm::full;
};
/// Gives up on the file that is being read.
struct StopOpening {};
/// The recordings opened before, over everything.
struct ToggleRecent {};
struct MoveRecent {
    int step = 1;
};
struct OpenRecent {
    std::size_t place = 0;  ///< in state.recent
};
struct OpenFile {
    std::string path;
};
/// While a lesson is recorded the coach is asked first.
struct CloseWindow {};
/// The answer to that: the recording is closed, then the window.
struct CloseForSure {};
/// A sentence for the coach, and nothing else.
struct Tell {
    std::string sentence;
};

using ViewAction =
    std::variant<ChooseSwing, CompareSwing, KeepForComparison, ChooseNeighbour, MoveHead, ScrubTo, StepTime,
                 StepSamples, GoToEvent, TogglePlaying, ToggleLooping, ChangeSpeed, ToggleTheme, ToggleSounds,
                 ChangeTextSize, ToggleKeys, ToggleNumbers, ScrollList, CloseOverlay, OpenFile, CloseWindow,
                 CloseForSure, WriteReport, LessonAction, BookAction, StopOpening, ToggleRecent, MoveRecent,
                 OpenRecent, MarkAction, CompareAction, Tell>;

/// The state after one action. What makes no sense (no such swing, nothing open) changes nothing.
[[nodiscard]] ViewState carry_out(ViewState state, const ViewAction& action);
[[nodiscard]] ViewState carry_out(ViewState state, const std::vector<ViewAction>& actions);

/// The state `elapsed_s` of real time later: moves the head while playing, at the chosen speed, and stops or
/// loops at the end of what is played.
[[nodiscard]] ViewState advance(ViewState state, double elapsed_s);

}  // namespace footing
