#pragma once

#include <optional>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/units.h"
#include "analysis/swing/live_swing_finder.h"
#include "viewer/lesson/load_collector.h"

namespace footing {

/// Share and swings as they come: drained from the live queue, over the same path as a whole lesson's loads.
/// One thread. Not for the device thread: looking for swings allocates.
class LiveLesson final : public FrameSink {
  public:
    LiveLesson(const DeviceDescription& device, const Calibration& calibration, Hand hand);

    void take_frame(const FrameView& frame) override;
    void take_gap(const Gap&) override {}  // the path and the finder see it in the counters

    /// Lead share of the newest frame, in [0, 1]; nothing while nobody stands there or the feet cannot be
    /// told apart.
    [[nodiscard]] std::optional<double> newest_share() const { return newest_share_; }
    /// Zeros taken, in order of time.
    [[nodiscard]] const std::vector<ZeroEvent>& zeros() const { return path_.zeros(); }
    /// Swings that are over, in order of time.
    [[nodiscard]] const std::vector<Swing>& swings() const { return finder_.swings(); }

    /// What is known so far of a swing that is under way.
    [[nodiscard]] const std::optional<SwingEvents>& under_way() const { return finder_.under_way(); }

  private:
    LoadPath path_;
    Hand hand_;
    LiveSwingFinder finder_;
    std::optional<double> newest_share_;
};

}  // namespace footing
