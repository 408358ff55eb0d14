#pragma once

#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/swing/coach_marks.h"
#include "viewer/lesson/lesson_choice.h"
#include "viewer/lesson/lesson_run.h"
#include "viewer/lesson/live_lesson_in_book.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/lesson_loader.h"

namespace footing {

/// Begins the lesson's thread; `changed` wakes the window.
using LessonStart = std::function<Result<std::unique_ptr<LessonRun>>(const LessonChoice& choice,
                                                                     std::function<void()> changed)>;

/// Between a lesson's thread and the state of the window: hands over what there is to show, carries out what
/// the coach wishes, and keeps labels beside the recording and in the lesson book as they change, on a thread
/// of its own. Of the drawing thread; never makes it wait but in the destructor.
class LessonKeeper {
  public:
    /// `book` may be empty: then nothing is kept in one. `load` analyses the closed recording, once for the
    /// book and the window; it is called on a thread of its own. `usual_desk` is what each lesson begins
    /// with.
    LessonKeeper(LessonStart start, LessonLoader load, std::filesystem::path book,
                 std::function<void()> changed, LessonDesk usual_desk)
        : start_(std::move(start)),
          load_(std::move(load)),
          book_(std::move(book)),
          changed_(std::move(changed)),
          usual_desk_(std::move(usual_desk)) {}
    /// Waits until the recording is closed and what was said is written.
    ~LessonKeeper();
    LessonKeeper(const LessonKeeper&) = delete;
    LessonKeeper& operator=(const LessonKeeper&) = delete;

    /// Begins a lesson; why not, is in state.problem.
    void begin(const LessonChoice& choice, ViewState& state);
    /// Says whether anything changed.
    [[nodiscard]] bool step(ViewState& state);
    /// No lesson is under way: its recording is closed or nothing was ever recorded, and all that was said is
    /// kept.
    [[nodiscard]] bool is_over(const ViewState& state) const;

  private:
    void write(const ViewState& state);
    void write_marks(const ViewState& state);
    void settle();
    void put_away(ViewState& state);
    [[nodiscard]] bool take_written(ViewState& state);

    /// What is left to do once the recording is closed, in this order.
    enum class Left { marks, analysis, nothing };
    struct Written {
        Outcome outcome;
        KeptLesson kept;  ///< in the book; number 0: not asked for
        std::shared_ptr<const LessonResult> analysed;
        CoachMarks marks{};                ///< those of the recording that was analysed
        std::vector<SwingLabel> labels{};  ///< of its swings
    };

    LessonStart start_;
    LessonLoader load_;
    std::filesystem::path book_;
    std::function<void()> changed_;
    LessonDesk usual_desk_;
    std::unique_ptr<LessonRun> run_;
    std::optional<LessonInBook> kept_;  ///< absent: a lesson of nobody in the book
    std::shared_ptr<const LiveView> seen_;
    std::vector<SwingLabel> written_labels_;
    Left left_ = Left::marks;
    std::shared_ptr<const LessonResult> analysed_;  ///< the whole recording, once it is closed
    CoachMarks analysed_marks_;                     ///< which it was analysed with
    std::vector<SwingLabel> analysed_labels_;       ///< of its swings
    std::future<Written> writing_;
};

}  // namespace footing
