#pragma once

#include <functional>
#include <future>
#include <memory>
#include <string>

#include "acquisition/frame/result.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// Writes the report that state.report_wish names, and beside it the student's where the open book has the
/// lesson, on a thread of its own, and says so when it is there. Of the drawing thread; never makes it wait
/// but in the destructor.
class ReportWriter {
  public:
    explicit ReportWriter(std::function<void()> changed) : changed_(std::move(changed)) {}
    [[nodiscard]] bool step(ViewState& state);

  private:
    std::function<void()> changed_;
    std::string path_;
    bool for_student_ = false;  ///< whether the book was asked
    std::future<Outcome> writing_;
};

}  // namespace footing
