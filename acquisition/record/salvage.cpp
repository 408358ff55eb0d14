#include "acquisition/record/salvage.h"

#include "acquisition/frame/units.h"

namespace footing {

Outcome Salvage::take(const FrameView& frame) {
    const FrameStamp& stamp = frame.stamp;
    if (!is_new(stamp)) return Done{};
    if (newest_) find_hole(stamp);
    if (!first_) first_ = stamp;
    newest_ = stamp;
    told_ = 0;
    clock_.take(stamp.device_time_us, stamp.host_time_ns);
    ++frames_;
    return append_(frame);
}

Outcome Salvage::take(const FrameBlock& block) {
    for (std::size_t i = 0; i < block.size(); ++i) {
        if (Outcome done = take(block.frame(i)); !done.ok()) return done;
    }
    return Done{};
}

void Salvage::take(const Gap& gap) {
    told_ += gap.frames_missing;
    if (gap.frames_missing == 0) clock_.restart();
    gaps_.push_back(gap);
}

double Salvage::duration_s() const {
    if (!first_ || newest_->counter <= first_->counter) return 0.0;
    return static_cast<double>(newest_->device_time_us - first_->device_time_us) * seconds_per_us;
}

double Salvage::seconds_of(std::uint64_t frames) const {
    if (!first_ || newest_->counter <= first_->counter) return 0.0;
    return static_cast<double>(frames) * duration_s() /
           static_cast<double>(newest_->counter - first_->counter);
}

void Salvage::find_hole(const FrameStamp& next) {
    const std::uint64_t missing = next.counter - newest_->counter - 1;
    if (missing <= told_) return;
    gaps_.push_back({newest_->counter, missing - told_, newest_->device_time_us, next.device_time_us});
    frames_in_holes_ += missing - told_;
}

ClockFit clock_fit_of(const ClockLine& line) {
    return {line.slope, line.offset_ns, line.jitter_sd_ns, line.residual_ns, line.worst_late_ns, line.knots};
}

}  // namespace footing
