#pragma once

#include <array>
#include <cstdint>

#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_encoder.h"

namespace footing {

inline constexpr std::uint32_t test_serial = 4711;

inline DeviceDescription eight_cells(std::uint32_t serial = test_serial) {
    DeviceDescription device;
    device.name = "test plates";
    device.serial = serial;
    device.rate_hz = 1000.0;
    const std::vector<PointM> cells = {{-0.1, 0.2}, {0.1, 0.2}, {-0.1, -0.2}, {0.1, -0.2}};
    device.layout.plates = {{"left", {-0.16, 0.0}, cells}, {"right", {0.16, 0.0}, cells}};
    return device;
}

inline DeviceDescription small_mat() {
    DeviceDescription device;
    device.name = "test mat";
    device.serial = test_serial;
    device.rate_hz = 500.0;
    device.layout.kind = FrameKind::grid;
    device.layout.grid = Grid{48, 48, 0.01, 0.01, {}};
    return device;
}

inline PacketHead test_head(std::uint32_t counter, std::uint32_t serial = test_serial) {
    return {serial, counter, 1'000'000 + counter * 1000ULL,
            static_cast<std::uint16_t>(counter % 100 == 0 ? 1 : 0)};
}

inline std::vector<std::byte> described(const DeviceDescription& device, std::uint32_t counter = 0) {
    return encode_description(test_head(counter, device.serial), description_json(device));
}

/// Eight cells that show the counter.
inline std::vector<std::byte> cells(std::uint32_t counter, std::uint32_t serial = test_serial) {
    std::array<std::int32_t, 8> counts{};
    counts.fill(static_cast<std::int32_t>(counter));
    return encode_cells(test_head(counter, serial), counts);
}

}  // namespace footing
