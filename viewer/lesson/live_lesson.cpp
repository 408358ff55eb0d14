#include "viewer/lesson/live_lesson.h"

#include "analysis/pressure/lead_share.h"

namespace footing {

namespace {

SetUpOptions set_up_options_of(const Calibration& calibration) {
    SetUpOptions options;
    options.gain_u = ratio_relative_u(calibration);
    return options;
}

}  // namespace

LiveLesson::LiveLesson(const DeviceDescription& device, const Calibration& calibration, Hand hand,
                       TargetBand band)
    : path_(device, calibration, live_units_of(device)),
      hand_(hand),
      finder_(device.rate_hz, hand, band),
      set_up_(device.rate_hz, hand, band, set_up_options_of(calibration)) {}

void LiveLesson::take_frame(const FrameView& frame) {
    const LoadSample sample = path_.take(frame);
    const double share = lead_share(sample, hand_);
    newest_share_ = known(share) ? std::optional(share) : std::nullopt;
    newest_time_us_ = frame.stamp.device_time_us;
    set_up_.take(sample);
    finder_.add(frame.stamp, sample);
}

std::optional<double> LiveLesson::zero_age_s() const {
    if (path_.zeros().empty()) return std::nullopt;
    const std::uint64_t zero_us = path_.zeros().back().device_time_us;
    return newest_time_us_ > zero_us ? static_cast<double>(newest_time_us_ - zero_us) * seconds_per_us : 0.0;
}

ZeroAdvice LiveLesson::zero_advice(double body_weight_n) const {
    const auto& keeper = path_.zero_keeper();
    return keeper ? keeper->advice(newest_time_us_, body_weight_n) : ZeroAdvice::fine;
}

}  // namespace footing
