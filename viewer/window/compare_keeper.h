#pragma once

#include <functional>
#include <future>
#include <memory>
#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/lesson_keeper.h"

namespace footing {

/// Lays over each other what is picked in `state`, with the names that the picture needs. Plain work on
/// values; takes as long as it takes.
[[nodiscard]] Comparison compare_picked(const ViewState& state);

/// Reads the lesson that is wanted beside the open one and lays swings over each other, on threads of its
/// own. Of the drawing thread; never makes it wait but in the destructor.
class CompareKeeper {
  public:
    /// `load` and `changed` are called on those threads.
    CompareKeeper(LessonLoader load, std::function<void()> changed)
        : load_(std::move(load)), changed_(std::move(changed)) {}
    ~CompareKeeper() {
        if (watch_) watch_->give_up();
    }
    CompareKeeper(const CompareKeeper&) = delete;
    CompareKeeper& operator=(const CompareKeeper&) = delete;
    /// Says whether anything changed.
    [[nodiscard]] bool step(ViewState& state);

  private:
    [[nodiscard]] bool read_other(ViewState& state);
    [[nodiscard]] bool compare(ViewState& state);

    LessonLoader load_;
    std::function<void()> changed_;
    std::string file_;
    std::unique_ptr<WorkWatch> watch_;  ///< of the reading below
    std::future<Result<LessonResult>> reading_;
    std::future<Comparison> comparing_;
};

}  // namespace footing
