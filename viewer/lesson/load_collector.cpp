#include "viewer/lesson/load_collector.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <utility>

namespace footing {

namespace {

/// The values of frames in a row.
FrameValues values_of(const FrameBlock& block, std::size_t first, std::size_t count) {
    return std::visit(
        [&](const auto& all) -> FrameValues {
            return std::span(all).subspan(first * block.values_per_frame, count * block.values_per_frame);
        },
        block.values);
}

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

FrameUnits live_units_of(const DeviceDescription& device) {
    return device.layout.kind == FrameKind::components ? FrameUnits::physical : FrameUnits::counts;
}

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
        if (auto zero = zero_keeper_->take(frame)) take_zero(std::move(*zero));
    }
    return reducer_.reduce(converter_.convert(frame.values));
}

void LoadPath::take_zero(ZeroEvent zero) {
    converter_.set_zero(zero.zero_counts);
    tell_range(zero.zero_counts);
    zeros_.push_back(std::move(zero));
}

const LoadColumns& LoadPath::take_rows(const FrameBlock& block, std::size_t first, std::size_t count) {
    rows_.resize(count);
    row_forces_n_.resize(count * block.values_per_frame);
    std::size_t done = 0;
    const auto reduce_to = [&](std::size_t end) {
        const std::span<double> forces_n(row_forces_n_.data(), (end - done) * block.values_per_frame);
        converter_.convert_rows(values_of(block, first + done, end - done), forces_n);
        reducer_.reduce_rows(forces_n, done, rows_);
        done = end;
    };
    for (std::size_t i = 0; zero_keeper_ && i < count; ++i) {
        auto zero = zero_keeper_->take(block.frame(first + i));
        if (!zero) continue;
        reduce_to(i);
        take_zero(std::move(*zero));
    }
    reduce_to(count);
    return rows_;
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

void LoadCollector::take_block(const FrameBlock& block) {
    if (!path_.takes_rows()) {
        for (std::size_t i = 0; i < block.size(); ++i) take_frame(block.frame(i));
        return;
    }
    // As many as stay near the processor.
    constexpr std::size_t rows_at_once = 1024;
    for (std::size_t first = 0; first < block.size(); first += rows_at_once) {
        const std::size_t count = std::min(rows_at_once, block.size() - first);
        builder_.add(std::span(block.stamps).subspan(first, count), path_.take_rows(block, first, count));
    }
}

}  // namespace footing
