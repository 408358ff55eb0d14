#pragma once

#include <functional>
#include <string>

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// Reads and analyses one recording. Called on a worker thread, one call at a time; its result is handed back
/// as a value.
using LessonLoader = std::function<Result<LessonResult>(const std::string& path)>;

/// What to look at first in a lesson that was just opened: from the state that shows it to the one to begin
/// with.
using FirstLook = std::function<ViewState(ViewState opened)>;

/// Opens the window on `start` (when start.opening names a file, that is read and `first_look` taken at it)
/// and stays until the coach closes it. Draws only when something changed: a key, the pointer, a file that
/// was read, a running head; otherwise it sleeps. Call on the main thread. Fails with command_line where
/// there is no display, and with device_failed where the display has no OpenGL 3.3.
[[nodiscard]] Outcome run_window(ViewState start, const LessonLoader& load, const FirstLook& first_look);

}  // namespace footing
