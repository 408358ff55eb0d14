#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "acquisition/decode/frame_order.h"
#include "acquisition/decode/grid_assembler.h"
#include "acquisition/decode/packet_decoder.h"
#include "acquisition/decode/text_stream.h"

namespace footing {

/// From correct packets of one known device to frames in order: checks them against the layout, puts grid
/// bands together, and passes the frames on through FrameOrder. Allocates on construction only.
class FrameIntake {
  public:
    FrameIntake(const DeviceDescription& device, const FrameOrderOptions& options);

    /// Descriptions are passed over; values that do not fit the layout count as damaged.
    void take_packet(const Packet& packet, std::int64_t host_time_ns, FrameSink& sink);
    void take_line(const TextFrame& frame, std::span<const std::int32_t> counts, std::int64_t host_time_ns,
                   FrameSink& sink);
    void pass_time(std::int64_t host_time_ns, FrameSink& sink) { order_.pass_time(host_time_ns, sink); }
    /// The line has ended: whatever waits for something else waits no longer.
    void release(FrameSink& sink);

    /// Adds what this has counted.
    void add_to(LossCounters& counters) const;

  private:
    PlateLayout layout_;
    std::size_t values_per_frame_;
    std::vector<std::int32_t> counts_;
    std::vector<double> components_;
    std::optional<GridAssembler> grid_;
    FrameOrder order_;
    std::uint64_t damaged_ = 0;
};

}  // namespace footing
