#pragma once

#include <vector>

#include "viewer/panels/keys.h"
#include "viewer/panels/view_action.h"
#include "viewer/panels/view_state.h"

struct GLFWwindow;

namespace footing {

inline constexpr int frames_after_change =
    3;  // Dear ImGui needs a frame to see a change and one more to show it

/// What is on the window's surface.
enum class Surface { shows_last_frame, lost };

/// What the window system told since the last frame.
struct Heard {
    std::vector<KeyPress> presses;
    std::vector<ViewAction> actions;
    int frames_to_draw = frames_after_change;
    Surface surface = Surface::lost;

    void wake() { frames_to_draw = frames_after_change; }
    /// Files were dropped onto the window: the first is opened.
    void take_drop(int count, const char* const* paths);
};

/// `heard` takes from here on what happens to the window; it outlives it.
void listen(GLFWwindow* window, Heard& heard);

/// What keys and pointer ask for, in the light of what each of them changed.
[[nodiscard]] ViewState carry_out_heard(ViewState state, Heard& heard);

}  // namespace footing
