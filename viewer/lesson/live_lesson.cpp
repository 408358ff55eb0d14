#include "viewer/lesson/live_lesson.h"

#include "analysis/pressure/lead_share.h"

namespace footing {

namespace {

FrameUnits units_of(const DeviceDescription& device) {
    return device.layout.kind == FrameKind::components ? FrameUnits::physical : FrameUnits::counts;
}

}  // namespace

LiveLesson::LiveLesson(const DeviceDescription& device, const Calibration& calibration, Hand hand)
    : path_(device, calibration, units_of(device)), hand_(hand), finder_(device.rate_hz, hand, {}) {}

void LiveLesson::take_frame(const FrameView& frame) {
    const LoadSample sample = path_.take(frame);
    const double share = lead_share(sample, hand_);
    newest_share_ = known(share) ? std::optional(share) : std::nullopt;
    finder_.add(frame.stamp, sample);
}

}  // namespace footing
