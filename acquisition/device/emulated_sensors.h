#pragma once

#include <cstdint>
#include <memory>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/golfer_chance.h"

namespace footing {

/// Turns what the feet do into raw counts, with the faults of real cells.
class EmulatedSensors {
  public:
    virtual ~EmulatedSensors() = default;
    [[nodiscard]] virtual DeviceDescription description() const = 0;
    /// The counts of one frame; valid until the next call. Draws its noise from `chance`.
    [[nodiscard]] virtual FrameValues measure(const GroundLoad& ground, double time_s, Chance& chance) = 0;
};

/// Two rigid plates, 0.40 m wide and 0.50 m deep, on four cells each. A plate on four equal cells shares a
/// load between them bilinearly by its place, which gives back load and place by the four-corner formula.
/// Each cell has a zero, an error of gain, noise, a drift of its zero, and whole counts.
[[nodiscard]] std::unique_ptr<EmulatedSensors> make_plate_sensors(const EmulatedDeviceSettings& settings);

/// A mat, 0.72 m wide and 0.48 m deep. Each foot presses with heel and forefoot, each with an inner and an
/// outer part; the four parts share the foot's load as four cells would, so that the pressure's centre is the
/// foot's CoP. Each element has an error of gain, noise, whole counts and a threshold below which it reads
/// zero; no hysteresis.
[[nodiscard]] std::unique_ptr<EmulatedSensors> make_mat_sensors(const EmulatedDeviceSettings& settings,
                                                                const GolferBody& body);

}  // namespace footing
