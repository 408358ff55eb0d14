#include "viewer/lesson/live_lesson.h"

#include <utility>

#include "analysis/pressure/lead_share.h"
#include "viewer/lesson/value_uncertainty.h"

namespace footing {

namespace {

SetUpOptions set_up_options_of(const Calibration& calibration) {
    SetUpOptions options;
    options.gain_u = ratio_relative_u(calibration);
    return options;
}

}  // namespace

LiveLesson::LiveLesson(const DeviceDescription& device, const Calibration& calibration, Hand hand,
                       TargetBand band, std::string day)
    : layout_(device.layout),
      calibration_(calibration),
      day_(std::move(day)),
      path_(device, calibration, live_units_of(device)),
      hand_(hand),
      finder_(device.rate_hz, hand, band),
      set_up_(device.rate_hz, hand, band, set_up_options_of(calibration)) {
    know_loads();
}

/// As the analysis of the closed recording will know them, but for the zeros to come: until the next one the
/// largest shift seen stands for the drift since the last.
void LiveLesson::know_loads() {
    zeros_known_ = path_.zeros().size();
    ValueUncertainty known = value_uncertainty(calibration_, layout_, day_, path_.zeros(), 0);
    if (!known.zero_shifts.empty()) {
        ZeroShift since_last = std::move(known.zero_shifts.back());
        since_last.from_s = 0.0;
        known.zero_shifts = {std::move(since_last)};
    }
    finder_.know_loads(LoadUncertainty(layout_, std::move(known)));
}

void LiveLesson::take_frame(const FrameView& frame) {
    const LoadSample sample = path_.take(frame);
    if (path_.zeros().size() != zeros_known_) know_loads();
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
