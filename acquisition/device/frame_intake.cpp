#include "acquisition/device/frame_intake.h"

namespace footing {

FrameIntake::FrameIntake(const DeviceDescription& device, const FrameOrderOptions& options)
    : layout_(device.layout),
      values_per_frame_(values_per_frame(device.layout)),
      order_(options, values_per_frame_) {
    switch (layout_.kind) {
        case FrameKind::cells:
            counts_.resize(values_per_frame_);
            break;
        case FrameKind::components:
            components_.resize(values_per_frame_);
            break;
        case FrameKind::grid:
            grid_.emplace(layout_.grid->rows, layout_.grid->columns);
            break;
    }
}

void FrameIntake::take_packet(const Packet& packet, std::int64_t host_time_ns, FrameSink& sink) {
    if (packet.kind == wire::PacketKind::description) return;
    RawStamp stamp{packet.head.counter, packet.head.device_time_us, host_time_ns, packet.head.inputs};
    if (static_cast<std::uint8_t>(packet.kind) != static_cast<std::uint8_t>(layout_.kind)) {
        ++damaged_;
        return;
    }
    if (grid_) {
        const GridAssembler::Step step = grid_->take(packet);
        if (step.verdict == Verdict::invalid) ++damaged_;
        if (step.verdict != Verdict::frame) return;
        stamp.device_time_us = step.head.device_time_us;
        stamp.inputs = step.head.inputs;
        order_.take(stamp, step.values, sink);
        return;
    }
    if (packet.count != values_per_frame_) {
        ++damaged_;
        return;
    }
    if (layout_.kind == FrameKind::cells) {
        copy_counts(packet, counts_);
        order_.take(stamp, std::span<const std::int32_t>(counts_), sink);
    } else {
        copy_components(packet, components_);
        order_.take(stamp, std::span<const double>(components_), sink);
    }
}

void FrameIntake::take_line(const TextFrame& frame, std::span<const std::int32_t> counts,
                            std::int64_t host_time_ns, FrameSink& sink) {
    if (layout_.kind != FrameKind::cells || counts.size() != values_per_frame_) {
        ++damaged_;
        return;
    }
    order_.take({frame.counter, frame.microseconds, host_time_ns, 0}, counts, sink);
}

void FrameIntake::release(FrameSink& sink) {
    if (grid_) grid_->give_up();
    order_.release(sink);
}

void FrameIntake::add_to(LossCounters& counters) const {
    counters.frames += order_.frames();
    counters.lost += order_.lost();
    counters.duplicated += order_.duplicated();
    counters.reordered += order_.reordered();
    counters.damaged += damaged_;
    if (grid_) {
        counters.incomplete_grids += grid_->incomplete();
        counters.duplicated += grid_->duplicated();
    }
}

}  // namespace footing
