#include "acquisition/join/live_joiner.h"

namespace footing {

namespace {

/// Frames of a device that wait for the others: two seconds at 1 kHz.
constexpr std::size_t most_waiting = 2000;

std::vector<std::size_t> values_of(std::span<const DeviceDescription> devices) {
    std::vector<std::size_t> values;
    for (const DeviceDescription& device : devices) values.push_back(values_per_frame(device.layout));
    return values;
}

}  // namespace

LiveJoiner::LiveJoiner(std::span<const DeviceDescription> devices)
    : joiner_(values_of(devices), most_waiting) {
    for (std::size_t i = 0; i < devices.size(); ++i) clocks_.push_back(std::make_unique<ClockFitter>());
}

void LiveJoiner::take_frame(std::size_t device, const FrameView& frame, FrameSink& sink) {
    ClockFitter& clock = *clocks_.at(device);
    clock.take(frame.stamp.device_time_us, frame.stamp.host_time_ns);
    joiner_.take_frame(device, frame, clock.host_time_ns(frame.stamp.device_time_us), sink);
}

void LiveJoiner::take_gap(std::size_t device, const Gap& gap) {
    if (gap.frames_missing == 0) clocks_.at(device)->restart();
    joiner_.take_gap(device, gap);
}

}  // namespace footing
