#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/recording.h"

namespace footing {

/// Passes the frames of one table on in order of their counters, fits the clocks, and finds the holes that
/// nobody has told of.
class Salvage {
  public:
    explicit Salvage(std::function<Outcome(const FrameView&)> append) : append_(std::move(append)) {}

    /// A frame that is not later than the one before is left out: never twice, never backwards.
    Outcome take(const FrameView& frame);
    Outcome take(const FrameBlock& block);
    /// A gap that was recorded, before the frame that follows it.
    void take(const Gap& gap);

    [[nodiscard]] bool is_new(const FrameStamp& stamp) const {
        return !newest_ || stamp.counter > newest_->counter;
    }
    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    [[nodiscard]] const std::vector<Gap>& gaps() const { return gaps_; }
    /// Frames missing between those taken that no recorded gap tells of.
    [[nodiscard]] std::uint64_t frames_in_holes() const { return frames_in_holes_; }
    [[nodiscard]] const std::optional<FrameStamp>& newest() const { return newest_; }
    /// From the first frame to the newest, by the device's clock.
    [[nodiscard]] double duration_s() const;
    /// The time that so many frames take, at the mean rate of what was taken; 0 where that is not known.
    [[nodiscard]] double seconds_of(std::uint64_t frames) const;
    [[nodiscard]] ClockLine clock_line() const { return clock_.line(); }

  private:
    void find_hole(const FrameStamp& next);

    std::function<Outcome(const FrameView&)> append_;
    std::optional<FrameStamp> first_;
    std::optional<FrameStamp> newest_;
    std::uint64_t told_ = 0;  ///< frames missing since the newest frame, by gaps that were recorded
    std::vector<Gap> gaps_;
    ClockFitter clock_;
    std::uint64_t frames_ = 0;
    std::uint64_t frames_in_holes_ = 0;
};

[[nodiscard]] ClockFit clock_fit_of(const ClockLine& line);

}  // namespace footing
