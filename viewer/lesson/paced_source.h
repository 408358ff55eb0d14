#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <utility>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"

namespace footing {

/// A source that does not wait for time to pass (the simulated golfer in this program), held back to real
/// time: each poll hands on what the source gives at once, when that much time has passed since the opening.
class PacedSource final : public FrameSource {
  public:
    /// `step` is how much time the source hands over in one poll.
    PacedSource(std::unique_ptr<FrameSource> source, std::chrono::nanoseconds step, const Clock& clock)
        : source_(std::move(source)), step_(step), clock_(clock) {}

    Result<DeviceDescription> open(std::chrono::milliseconds patience) override;
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override;
    [[nodiscard]] LossCounters losses() const override { return source_->losses(); }
    [[nodiscard]] std::string name() const override { return source_->name(); }

  private:
    std::unique_ptr<FrameSource> source_;
    std::chrono::nanoseconds step_;
    const Clock& clock_;         ///< whose steady time is that of std::chrono::steady_clock
    std::int64_t began_ns_ = 0;  ///< added to the source's host times, which count from its own start
    std::chrono::steady_clock::time_point due_;
};

}  // namespace footing
