#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/join/frame_joiner.h"

namespace footing {

/// Joins frames as they come, by the fits of the clocks so far: for the screen. What is recorded is joined
/// again, by the fits of the whole lesson. One thread.
class LiveJoiner {
  public:
    explicit LiveJoiner(std::span<const DeviceDescription> devices);

    void take_frame(std::size_t device, const FrameView& frame, FrameSink& sink);
    void take_gap(std::size_t device, const Gap& gap);

  private:
    std::vector<std::unique_ptr<ClockFitter>> clocks_;
    FrameJoiner joiner_;
};

}  // namespace footing
