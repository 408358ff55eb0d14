#pragma once

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/picture.h"

namespace footing {

/// Largest picture that is drawn, px on a side.
inline constexpr int most_pixels = 8192;

/// Draws the screen of `state` without a display: the same panels and the same OpenGL as the window, into
/// memory (EGL without a surface). Fails with device_failed when the computer has no EGL, with command_line
/// when the size makes no sense. One call at a time in a process.
[[nodiscard]] Result<Picture> draw_off_screen(const ViewState& state, PixelSize size);

}  // namespace footing
