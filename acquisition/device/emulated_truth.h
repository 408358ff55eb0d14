#pragma once

#include <string>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_transmission.h"

namespace footing {

/// The truth of a simulated lesson as JSON: SI units, times in device seconds from the first frame. With
/// `count`, also what the line did to the frames ("line": lost and damaged packets, index of each lost
/// frame).
[[nodiscard]] std::string truth_json(const EmulatedDeviceSettings& settings, const EmulatedTruth& truth,
                                     const TransmitCount* count = nullptr);

}  // namespace footing
