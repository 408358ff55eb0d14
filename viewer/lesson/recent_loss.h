#pragma once

#include <cstdint>
#include <deque>

#include "acquisition/frame/quality.h"

namespace footing {

/// How many of the frames of the last seconds never came (whole, on a mat): losses of the lesson's beginning
/// say nothing of the cable now.
class RecentLoss {
  public:
    /// The counters of a recording at a time, later than those before. Returns the part of the frames due in
    /// the last five seconds (less at the beginning) that are lost.
    [[nodiscard]] double take(std::int64_t now_ns, const LossCounters& so_far);

  private:
    struct Count {
        std::int64_t at_ns = 0;
        std::uint64_t came = 0;
        std::uint64_t lost = 0;
    };
    std::deque<Count> counts_;
};

}  // namespace footing
