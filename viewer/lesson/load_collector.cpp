#include "viewer/lesson/load_collector.h"

namespace footing {

LoadPath::LoadPath(const DeviceDescription& device, const Calibration& calibration, FrameUnits units)
    : converter_(calibration), reducer_(device.layout) {
    if (units == FrameUnits::counts)
        zero_keeper_.emplace(calibration.newtons_per_count, calibration.zero_counts);
}

LoadSample LoadPath::take(const FrameView& frame) {
    if (zero_keeper_) {
        if (auto zero = zero_keeper_->take(frame)) {
            converter_.set_zero(zero->zero_counts);
            zeros_.push_back(std::move(*zero));
        }
    }
    return reducer_.reduce(converter_.convert(frame.values));
}

LoadCollector::LoadCollector(const DeviceDescription& device, const Calibration& calibration,
                             FrameUnits units)
    : path_(device, calibration, units), builder_(device.rate_hz) {}

}  // namespace footing
