#include "viewer/lesson/load_collector.h"

#include <cstddef>
#include <cstdint>
#include <utility>

namespace footing {

namespace {

/// Elements that a calibration found dead do not count.
LoadOptions options_for(const Calibration& calibration, const PlateLayout& layout) {
    LoadOptions options;
    if (layout.kind != FrameKind::grid || !calibration.elements) return options;
    options.dead.assign(values_per_frame(layout), 0);
    bool any = false;
    for (const std::uint32_t element : calibration.elements->dead) {
        if (element >= options.dead.size()) continue;
        options.dead[element] = 1;
        any = true;
    }
    if (!any) options.dead.clear();
    return options;
}

}  // namespace

LoadPath::LoadPath(const DeviceDescription& device, const Calibration& calibration, FrameUnits units)
    : converter_(calibration), reducer_(device.layout, options_for(calibration, device.layout)) {
    if (units != FrameUnits::counts) return;
    zero_keeper_.emplace(calibration.newtons_per_count, calibration.zero_counts);
    if (device.layout.kind != FrameKind::grid) return;
    newtons_per_count_ = calibration.newtons_per_count;
    full_scale_counts_ = device.full_scale_counts.value_or(0.0);
    tell_range(calibration.zero_counts);
}

LoadSample LoadPath::take(const FrameView& frame) {
    if (zero_keeper_) {
        if (auto zero = zero_keeper_->take(frame)) {
            converter_.set_zero(zero->zero_counts);
            tell_range(zero->zero_counts);
            zeros_.push_back(std::move(*zero));
        }
    }
    return reducer_.reduce(converter_.convert(frame.values));
}

/// The newtons at which each element of a mat is at the end of its range.
void LoadPath::tell_range(std::span<const double> zero_counts) {
    if (!(full_scale_counts_ > 0.0)) return;
    std::vector<double> clip_n(newtons_per_count_.size());
    for (std::size_t i = 0; i < clip_n.size(); ++i)
        clip_n[i] = newtons_per_count_[i] * (full_scale_counts_ - 0.5 - zero_counts[i]);
    reducer_.set_clip(std::move(clip_n));
}

LoadCollector::LoadCollector(const DeviceDescription& device, const Calibration& calibration,
                             FrameUnits units)
    : path_(device, calibration, units), builder_(device.rate_hz) {}

}  // namespace footing
