#pragma once

#include <filesystem>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/result.h"

namespace footing {

/// A free name for a new recording in the user's data folder (XDG Base Directory, $XDG_DATA_HOME, else
/// ~/.local/share), made of date and time only (R23): footing/lessons/2026-11-25_102044.h5. Makes the folder.
/// Fails with disk_failed.
[[nodiscard]] Result<std::filesystem::path> new_lesson_file(const Clock& clock);

}  // namespace footing
