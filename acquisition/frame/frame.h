#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <variant>
#include <vector>

namespace footing {

/// The bit of FrameStamp::inputs that the trigger (ball sensor, launch sensor, foot switch) sets.
inline constexpr std::uint16_t trigger_bit = 1U;

/// When one sampling instant was, and what else the device saw then.
struct FrameStamp {
    std::uint64_t counter = 0;         ///< sampling instants by the device's own count, 32-bit wrap removed
    std::uint64_t device_time_us = 0;  ///< device clock, wrap removed
    std::int64_t host_time_ns = 0;     ///< host's steady clock when the bytes arrived; 0 for an import
    std::uint16_t inputs = 0;          ///< bit 0: trigger
    friend bool operator==(const FrameStamp&, const FrameStamp&) = default;
};

/// What a frame's values are. The numbers are those of the wire format.
enum class FrameKind : std::uint8_t {
    cells = 2,  ///< one value a load cell
    grid = 3,  ///< one value a sensing element, row by row; row 1 at the toes' side, column 1 at the golfer's
               ///< left
    components = 4,  ///< Fx Fy Fz Mx My Mz for each plate, N and N m, about the plate's own origin
};

/// The values of one frame, not owned: raw counts of cells, raw counts of a grid, or physical values.
/// Physical values are newtons (cells, grid) or N and N m (components).
using FrameValues =
    std::variant<std::span<const std::int32_t>, std::span<const std::uint16_t>, std::span<const double>>;

/// One frame, not owned. Valid until the next call of whatever handed it out.
struct FrameView {
    FrameStamp stamp;
    FrameValues values;
};

[[nodiscard]] inline std::size_t value_count(const FrameValues& values) {
    return std::visit([](const auto& span) { return span.size(); }, values);
}

/// Frames in a row: stamps, and values in one row-major matrix [frame, value]. What readers hand out, block
/// by block.
struct FrameBlock {
    std::vector<FrameStamp> stamps;
    std::size_t values_per_frame = 0;
    std::variant<std::vector<std::int32_t>, std::vector<std::uint16_t>, std::vector<double>> values;

    [[nodiscard]] std::size_t size() const { return stamps.size(); }

    [[nodiscard]] FrameView frame(std::size_t index) const {
        return {stamps[index], std::visit(
                                   [&](const auto& all) -> FrameValues {
                                       return std::span(all).subspan(index * values_per_frame,
                                                                     values_per_frame);
                                   },
                                   values)};
    }
};

}  // namespace footing
