#pragma once

#include <vector>

#include "viewer/panels/screen_canvas.h"
#include "viewer/panels/screen_layout.h"
#include "viewer/panels/view_action.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// What one drawing of the screen gave: what the coach asked for with the pointer, and, for tests, where
/// things stand.
struct ScreenDrawn {
    std::vector<ViewAction> asked;
    std::vector<PlacedText> texts;
    ScreenLayout layout;
};

/// Draws the whole screen of `state` into the current Dear ImGui frame (between NewFrame and Render), but for
/// the ground: whoever shows the frame begins with the theme's paper, which costs less there. `scale`: px of
/// the screen for one px of the design, the one that `fonts` were made for.
[[nodiscard]] ScreenDrawn draw_screen(const ViewState& state, const Fonts& fonts, float scale);

}  // namespace footing
