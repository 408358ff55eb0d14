#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "analysis/swing/coach_marks.h"

namespace footing {

struct ViewState;

/// An event on its way to where the coach says that it was.
struct DraggedEvent {
    std::size_t event = 0;  ///< place in named_events
    double time_s = 0.0;    ///< seconds from the first frame
    /// The pointer has it, or it was let go and the recording is analysed anew.
    enum class Hold { by_pointer, let_go } hold = Hold::by_pointer;
};

/// The coach's marks of the open recording. Plain data; changed by carry_out() only; the window writes them
/// beside the recording and analyses that anew after each change.
struct MarksDesk {
    CoachMarks marks;
    std::vector<CoachMarks> undo;  ///< the marks before each change, newest last
    std::vector<CoachMarks> redo;
    std::uint64_t revision = 0;  ///< counts changes
    std::optional<DraggedEvent> dragged;
};

/// An event of the chosen swing follows the pointer, and the head with it.
struct DragEvent {
    std::size_t event = 0;
    double time_s = 0.0;
};
/// It is let go: marked there, unless it was not moved. What contradicts other marks is refused, and told.
struct DropEvent {};
/// Takes back the mark of the event that the head stands on.
struct UnmarkEvent {};
struct UndoMark {};
struct RedoMark {};

using MarkAction = std::variant<DragEvent, DropEvent, UnmarkEvent, UndoMark, RedoMark>;

/// The state after one of these; in a lesson under way, and without a chosen swing that has an impact,
/// nothing changes.
[[nodiscard]] ViewState carry_out_mark(ViewState state, const MarkAction& action);

/// Whether events of the chosen swing can be marked now.
[[nodiscard]] bool can_mark(const ViewState& state);

}  // namespace footing
