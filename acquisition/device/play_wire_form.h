#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "acquisition/decode/wire_encoder.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// How the frames of a recording go over the wire. Raw counts go as they are, bit for bit. Components (N, N
/// m) go as 32-bit reals, the wire's own. Loads in newtons, of cells or of a mat, as an import has them,
/// become whole counts of 2^k newtons, with the smallest k that leaves room for the largest of them, and the
/// description states that; so a cell is right to within a part in 10^9 of the largest load, an element of a
/// mat to within a part in 65,535.
class PlayWireForm {
  public:
    /// Reads all of `frames` (opened, from its start) when that takes a scale, else none or a few of its
    /// frames. Fails with bad_input when the frames cannot be read, hold values that no count can tell (not a
    /// number, or negative on a mat), or when the device's description is too long for a packet.
    [[nodiscard]] static Result<PlayWireForm> choose(const DeviceDescription& device, FrameSource& frames);

    /// What the device says of itself on the wire.
    [[nodiscard]] const DeviceDescription& description() const { return description_; }

    /// The packets of one frame; empty when it does not fit the description.
    [[nodiscard]] std::vector<std::vector<std::byte>> packets(const FrameView& frame) const;

    /// Head of a packet that tells of this sampling instant.
    [[nodiscard]] PacketHead head(const FrameStamp& stamp) const;

  private:
    explicit PlayWireForm(DeviceDescription description) : description_(std::move(description)) {}
    [[nodiscard]] std::vector<std::vector<std::byte>> physical_packets(const PacketHead& head,
                                                                       std::span<const double> values) const;

    DeviceDescription description_;
    double counts_per_newton_ = 1.0;
};

}  // namespace footing
