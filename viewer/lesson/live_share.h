#pragma once

#include <memory>
#include <optional>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/units.h"
#include "viewer/lesson/load_collector.h"

namespace footing {

/// The lead share as it comes: drained from the live queue, over the same path as a whole lesson's loads.
class LiveShare final : public FrameSink {
  public:
    LiveShare(const DeviceDescription& device, const Calibration& calibration, Hand hand);

    void take_frame(const FrameView& frame) override;
    void take_gap(const Gap&) override {}

    /// Of the newest frame, in [0, 1]; nothing while nobody stands there or the feet cannot be told apart.
    [[nodiscard]] std::optional<double> newest() const { return newest_; }

  private:
    LoadPath path_;
    Hand hand_;
    std::optional<double> newest_;
};

}  // namespace footing
