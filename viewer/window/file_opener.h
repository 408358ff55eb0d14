#pragma once

#include <chrono>
#include <functional>
#include <future>
#include <memory>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/frame/work_watch.h"
#include "analysis/swing/coach_marks.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/lesson_loader.h"

namespace footing {

/// What to look at first in a lesson that was just opened: from the state that shows it to the one to begin
/// with.
using FirstLook = std::function<ViewState(ViewState opened)>;

/// Reads what state.opening names, on a thread of its own, and shows it; tables and C3D files become
/// recordings first. Given up on, the window goes on at once, and what was half made is taken away as soon as
/// the thread notices. Of the drawing thread; never makes it wait but in the destructor.
class FileOpener {
  public:
    /// `first_look`: once, for the file that the program was started with. `changed` wakes the window.
    FileOpener(LessonLoader load, FirstLook first_look, std::function<void()> changed)
        : load_(std::move(load)), first_look_(std::move(first_look)), changed_(std::move(changed)) {}
    ~FileOpener();
    FileOpener(const FileOpener&) = delete;
    FileOpener& operator=(const FileOpener&) = delete;

    /// Starts on what is asked for, or hands over what is done. Says whether anything changed.
    [[nodiscard]] bool step(ViewState& state);
    /// A file is being read: what is shown of its progress changes by itself.
    [[nodiscard]] bool is_reading() const { return job_ != nullptr; }

  private:
    struct Opened {
        std::string recording;
        std::string made;  ///< what was made of a table or C3D file; else empty
        LessonResult lesson;
        CoachMarks marks;
        std::vector<SwingLabel> labels;  ///< of its swings
    };
    struct Job {
        std::string path;
        WorkWatch watch;
        std::future<Result<Opened>> result;
    };
    [[nodiscard]] static Result<Opened> read(const std::string& path, Hand hand, const LessonLoader& load,
                                             WorkWatch& watch);
    void begin(const ViewState& state);
    void show(Result<Opened> result, ViewState& state);
    void forget_what_is_over();

    LessonLoader load_;
    FirstLook first_look_;
    std::function<void()> changed_;
    std::unique_ptr<Job> job_;
    std::vector<std::unique_ptr<Job>> given_up_;
};

/// The newest first, each once, at most twelve.
[[nodiscard]] std::vector<std::string> with_recent(std::vector<std::string> recent, const std::string& path);

}  // namespace footing
