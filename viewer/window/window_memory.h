#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/picture.h"

namespace footing {

/// How the coach left the window: kept from one start to the next, for this user of this computer.
struct WindowMemory {
    Theme theme = Theme::paper;
    std::size_t text_size = usual_text_size;
    Sounds sounds = Sounds::on;
    std::size_t speed = real_time_speed;
    Looping looping = Looping::off;
    PixelSize size{1280, 720};
    std::vector<std::string> recent;  ///< newest first
    friend bool operator==(const WindowMemory&, const WindowMemory&) = default;
};

/// In the user's folder for such things (XDG_STATE_HOME); makes no folder.
[[nodiscard]] std::filesystem::path usual_window_memory();

/// What was kept; where there is none, or it is damaged, the window begins as designed: nothing that a coach
/// recorded hangs on it.
[[nodiscard]] WindowMemory read_window_memory(const std::filesystem::path& file);
/// Makes the folder where there is none. Safely (R14). Fails with disk_failed.
[[nodiscard]] Outcome write_window_memory(const std::filesystem::path& file, const WindowMemory& memory);

/// From the state of a window that is left, and into one that begins.
[[nodiscard]] WindowMemory memory_of(const ViewState& state, PixelSize size);
[[nodiscard]] ViewState with_memory(ViewState state, const WindowMemory& memory);

}  // namespace footing
