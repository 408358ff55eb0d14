#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/lesson/lesson_choice.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/file_opener.h"
#include "viewer/window/lesson_keeper.h"
#include "viewer/window/picture.h"
#include "viewer/window/plates_keeper.h"

namespace footing {

/// What a window needs in which lessons are held.
struct LessonWork {
    LessonStart start;                       ///< absent: the window only shows recordings
    std::optional<LessonChoice> begin_with;  ///< the lesson to begin at once
    LessonDesk desk;                         ///< what each lesson begins with: wedges, unit
    std::filesystem::path book;              ///< empty: no book is open
    std::vector<PlatesChoice> plates;        ///< the first to choose from; several: taken together
    PlatesStart listen;                      ///< absent: plates are not listened to outside lessons
    std::function<void(const std::string&)>
        tell;                   ///< takes what the coach should know once the window is gone
    PixelSize size{1280, 720};  ///< that the window opens with
    /// Takes how the coach leaves the window, and its size, before it goes.
    std::function<void(const ViewState& end, PixelSize size)> left;
    const std::atomic<bool>* end_asked = nullptr;  ///< becoming true (by a signal) ends lesson and window
};

/// Opens the window on `start` (when start.opening names a file, that is read and `first_look` taken at it)
/// and stays until the coach closes it. Draws only when something changed: a key, the pointer, a file that
/// was read, a running head, something new of a lesson; otherwise it sleeps. A lesson under way is closed
/// before the window goes, and what is in the book's bin is taken out of the book then. Call on the main
/// thread. Fails with device_failed where there is no display, or none with OpenGL 3.3.
[[nodiscard]] Outcome run_window(ViewState start, const LessonLoader& load, const FirstLook& first_look,
                                 LessonWork work = {});

}  // namespace footing
