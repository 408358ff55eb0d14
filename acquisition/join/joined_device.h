#pragma once

#include <cstddef>
#include <span>
#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// At most so many devices, each with a clock of its own, are recorded as one lesson.
inline constexpr std::size_t most_joined_devices = 4;

/// Several devices as one: their plates side by side, in the order given; rate and serial number are those of
/// the first, whose clock is the time base. Fails with bad_input when they cannot be one: a mat among them,
/// cells beside components, two with one serial number, plates that say they stand in the same place, or
/// more than plate_layout.h allows.
[[nodiscard]] Result<DeviceDescription> join_devices(std::span<const DeviceDescription> devices);

/// The calibrations of the devices, in the same order, as one of all their values. It is worth no more than
/// the least of them: one that is nominal makes it nominal, the earliest end is its end. What their
/// uncertainties have in common is taken as nothing, which makes no share look surer than it is.
[[nodiscard]] Calibration join_calibrations(std::span<const Calibration> calibrations,
                                            std::span<const DeviceDescription> devices);

/// How well frames of several devices are known to belong together in time: the root of the sum of the
/// squares of what the fits of their clocks leave over (their lines are independent), in the unit of those.
[[nodiscard]] double joined_residual(std::span<const double> residuals);

/// "left plate (serial number 100001)": which of several devices is meant, for sentences.
[[nodiscard]] std::string device_words(const DeviceDescription& device);

}  // namespace footing
