#pragma once

#include "viewer/panels/box.h"

namespace footing {

enum class Touch { none, hovered, pressed, held };

/// What the pointer does to a part of the screen in this frame: `pressed` once when the button goes down on
/// it, `held` while it stays down, wherever the pointer went since. `name` is unique on the screen.
[[nodiscard]] Touch touch(const char* name, const Box& box);
[[nodiscard]] Touch touch(int number, const Box& box);

/// One sentence beside the pointer.
void explain(const char* sentence);

}  // namespace footing
