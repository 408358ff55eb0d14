#include "viewer/lesson/live_share.h"

#include "analysis/pressure/lead_share.h"

namespace footing {

namespace {

FrameUnits units_of(const DeviceDescription& device) {
    return device.layout.kind == FrameKind::components ? FrameUnits::physical : FrameUnits::counts;
}

}  // namespace

LiveShare::LiveShare(const DeviceDescription& device, const Calibration& calibration, Hand hand)
    : path_(device, calibration, units_of(device)), hand_(hand) {}

void LiveShare::take_frame(const FrameView& frame) {
    const double share = lead_share(path_.take(frame), hand_);
    newest_ = known(share) ? std::optional(share) : std::nullopt;
}

}  // namespace footing
