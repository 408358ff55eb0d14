#pragma once

#include <cstdint>
#include <functional>
#include <future>
#include <memory>
#include <string>

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"
#include "viewer/window/file_opener.h"

namespace footing {

/// Keeps the coach's marks beside the open recording as they change, and shows it analysed anew, on a thread
/// of its own. Of the drawing thread; never makes it wait but in the destructor.
class MarkKeeper {
  public:
    MarkKeeper(LessonLoader load, std::function<void()> changed)
        : load_(std::move(load)), changed_(std::move(changed)) {}

    /// Says whether anything changed. Marks that cannot be kept are taken back, and that is told.
    [[nodiscard]] bool step(ViewState& state);
    /// All marks are kept.
    [[nodiscard]] bool is_settled(const ViewState& state) const;

  private:
    struct Kept {
        std::shared_ptr<const LessonResult> lesson;  ///< whose marks these are
        CoachMarks marks;
        std::uint64_t revision = 0;
    };
    void begin(const ViewState& state);

    LessonLoader load_;
    std::function<void()> changed_;
    Kept kept_;
    Kept asked_;
    std::future<Result<LessonResult>> work_;
};

}  // namespace footing
