#pragma once

#include <functional>
#include <optional>
#include <string>

#include "viewer/command_line/arguments.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/window_memory.h"

namespace footing {

/// How a window looks and sounds; what is not said is as the coach left it last time.
struct WindowOptions {
    std::optional<std::string> theme;
    std::optional<std::string> text_size;
    std::optional<std::string> sounds;
};

void add_window_options(Arguments& verb, WindowOptions& options);

/// `memory` with what was said in its place.
[[nodiscard]] WindowMemory as_said(WindowMemory memory, const WindowOptions& options);

/// Keeps how the window is left where usual_window_memory() says; why that failed is told to the person, and
/// nothing else comes of it.
[[nodiscard]] std::function<void(const ViewState& end, PixelSize size)> keeping_memory();

}  // namespace footing
