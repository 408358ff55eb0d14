#pragma once

#include "acquisition/device/emulated_device.h"
#include "acquisition/frame/frame_source.h"

namespace footing {

/// The simulated device's frames handed over in this process: what a live source gives when nothing is lost.
/// Does not wait for time to pass; each poll hands over `step_s` of frames, unless said a tenth of a second.
class EmulatedSource final : public FrameSource {
  public:
    explicit EmulatedSource(const EmulatedDeviceSettings& settings, double step_s = 0.1)
        : device_(settings), step_s_(step_s) {}

    Result<DeviceDescription> open(std::chrono::milliseconds patience) override;
    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override;
    [[nodiscard]] LossCounters losses() const override { return losses_; }
    [[nodiscard]] std::string name() const override { return "simulated golfer"; }

  private:
    EmulatedDevice device_;
    double step_s_;
    LossCounters losses_;
};

}  // namespace footing
