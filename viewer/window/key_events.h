#pragma once

#include <optional>

#include "viewer/panels/keys.h"

namespace footing {

/// A GLFW key (GLFW_KEY_…) with its modifiers as a press; nothing for keys that type a character, which GLFW
/// reports a second time as that character, unless control is held.
[[nodiscard]] std::optional<KeyPress> key_press(int glfw_key, int glfw_modifiers);

}  // namespace footing
