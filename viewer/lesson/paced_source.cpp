#include "viewer/lesson/paced_source.h"

#include <algorithm>
#include <thread>

namespace footing {

namespace {

/// The source's host times count from its own start.
class HereAndNow final : public FrameSink {
  public:
    HereAndNow(FrameSink& sink, std::int64_t began_ns) : sink_(sink), began_ns_(began_ns) {}
    void take_frame(const FrameView& frame) override {
        FrameView stamped = frame;
        stamped.stamp.host_time_ns += began_ns_;
        sink_.take_frame(stamped);
    }
    void take_gap(const Gap& gap) override { sink_.take_gap(gap); }

  private:
    FrameSink& sink_;
    std::int64_t began_ns_;
};

}  // namespace

Result<DeviceDescription> PacedSource::open(std::chrono::milliseconds patience) {
    auto description = source_->open(patience);
    began_ns_ = clock_.steady_ns();
    due_ = std::chrono::steady_clock::now() + step_;
    return description;
}

Result<SourceState> PacedSource::poll(FrameSink& sink, std::chrono::milliseconds patience) {
    const auto now = std::chrono::steady_clock::now();
    if (due_ - now > patience) {
        std::this_thread::sleep_for(patience);
        return SourceState::waiting;
    }
    std::this_thread::sleep_until(due_);
    due_ += step_;
    HereAndNow stamped(sink, began_ns_);
    return source_->poll(stamped, patience);
}

}  // namespace footing
