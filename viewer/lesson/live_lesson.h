#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/live_swing_finder.h"
#include "analysis/swing/set_up_watch.h"
#include "analysis/swing/verdict.h"
#include "viewer/lesson/load_collector.h"

namespace footing {

/// Set-up and swings as they come: drained from the live queue, over the same path as a whole lesson's loads.
/// One thread. Not for the device thread: looking for swings allocates.
class LiveLesson final : public FrameSink {
  public:
    /// `day`: ISO 8601, since a calibration that has expired is worth less.
    LiveLesson(const DeviceDescription& device, const Calibration& calibration, Hand hand,
               TargetBand band = {}, std::string day = "");

    void take_frame(const FrameView& frame) override;
    void take_gap(const Gap&) override { set_up_.interrupt(); }  // path and finder see it in the counters

    /// Lead share of the newest frame, in [0, 1]; nothing while nobody stands there or the feet cannot be
    /// told apart.
    [[nodiscard]] std::optional<double> newest_share() const { return newest_share_; }
    /// When that was, by the device's clock.
    [[nodiscard]] std::uint64_t newest_time_us() const { return newest_time_us_; }
    /// The stance at this moment.
    [[nodiscard]] const SetUpReading& set_up() const { return set_up_.reading(); }
    /// Zeros taken, in order of time.
    [[nodiscard]] const std::vector<ZeroEvent>& zeros() const { return path_.zeros(); }
    /// Since the newest zero, by the device's clock; nothing before the first.
    [[nodiscard]] std::optional<double> zero_age_s() const;
    /// Whether to ask for empty plates (R18). `body_weight_n` 0: not known.
    [[nodiscard]] ZeroAdvice zero_advice(double body_weight_n) const;
    /// Swings that are over, in order of time; how many of them do not change any more.
    [[nodiscard]] const std::vector<Swing>& swings() const { return finder_.swings(); }
    [[nodiscard]] std::size_t completed_swings() const { return finder_.completed(); }
    /// The loads of a swing that was just found; nothing of what is older than half a minute.
    [[nodiscard]] LoadTrace stretch(double from_s, double to_s) const {
        return finder_.stretch(from_s, to_s);
    }

    /// What is known so far of a swing that is under way.
    [[nodiscard]] const std::optional<SwingEvents>& under_way() const { return finder_.under_way(); }

  private:
    void know_loads();

    PlateLayout layout_;
    Calibration calibration_;
    std::string day_;
    std::size_t zeros_known_ = 0;
    LoadPath path_;
    Hand hand_;
    LiveSwingFinder finder_;
    SetUpWatch set_up_;
    std::optional<double> newest_share_;
    std::uint64_t newest_time_us_ = 0;
};

}  // namespace footing
