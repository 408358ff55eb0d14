#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/device/golfer_body.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

/// A weight that stands on a plate for a while. Several on one plate act at their common centre.
struct PlacedWeight {
    double from_s = 0.0;  ///< true seconds from the first frame
    double to_s = 0.0;
    std::size_t plate = 0;  ///< 0: left, 1: right
    double mass_kg = 0.0;
    PointM at;  ///< from the plate's centre
};

/// Empty plates for so long after the last weight is gone.
inline constexpr double empty_after_weights_s = 15.0;

/// What the simulated golfer stands on, and how well it measures.
struct EmulatedDeviceSettings {
    FrameKind kind = FrameKind::cells;  ///< cells: two plates with four cells each; grid: a mat
    /// Both plates on one device, or one of them, which is then a device of its own with a clock of its own.
    enum class Part { both_plates, left_plate, right_plate } part = Part::both_plates;
    std::uint32_t rows = 48;  ///< of the mat
    std::uint32_t columns = 48;
    double rate_hz = 1000.0;
    std::uint64_t seed = 1;
    std::size_t swings = 9;
    GolferStyle golfer;
    std::vector<PlacedWeight> weights;  ///< if there are any, they stand on the plates in place of the golfer
    enum class Trigger {
        wired,
        absent
    } trigger = Trigger::wired;  ///< an input that is set for 5 ms, at least one frame, when a ball is struck
    double noise_n = 0.3;        ///< of a cell, standard deviation
    double gain_error = 0.0005;  ///< of a cell's gain, standard deviation
    double drift_n_per_min = 0.2;   ///< of a cell's zero, standard deviation of the slope
    double clock_error_ppm = 20.0;  ///< the device's clock against true time; positive: fast
    std::uint64_t first_counter = 0;
    std::uint64_t first_time_us = 5'000'000;  ///< on the device's clock
};

/// What really happened in one swing. Times are device seconds from the first frame; shares are of the true
/// loads.
struct TrueSwing {
    ScriptedSwing script;  ///< its times too are device seconds from the first frame
    double turnaround_s = 0.0;
    double address_share =
        0.0;  ///< mean over what the contract calls address: 0.5 s, ending 0.1 s before takeaway
    double top_share = 0.0;
    double turnaround_share = 0.0;
    double lowest_share = 0.0;
    double impact_share = 0.0;
    double finish_share = 0.0;
};

struct EmulatedTruth {
    GolferStyle golfer;
    double body_weight_n = 0.0;
    double on_from_s = 0.0;  ///< both feet carry the whole body from here to …
    double on_to_s = 0.0;
    double duration_s = 0.0;
    std::vector<TrueSwing> swings;
};

/// A simulated golfer on simulated plates, frame by frame: no clock, no port, no thread. The same settings
/// give the same frames, bit for bit.
class EmulatedDevice {
  public:
    explicit EmulatedDevice(const EmulatedDeviceSettings& settings);
    ~EmulatedDevice();
    EmulatedDevice(EmulatedDevice&&) noexcept;
    EmulatedDevice& operator=(EmulatedDevice&&) noexcept;

    [[nodiscard]] const DeviceDescription& description() const;
    [[nodiscard]] const EmulatedTruth& truth() const;
    [[nodiscard]] std::uint64_t frame_count() const;

    /// The next frame, valid until the next call; nothing after the last. host_time_ns is true time since the
    /// first frame.
    [[nodiscard]] std::optional<FrameView> next();

    /// True seconds (not the device's clock) from the first frame to frame `index`.
    [[nodiscard]] double true_time_s(std::uint64_t index) const;

    /// What the feet really do at a sampling instant, before any cell has measured it.
    [[nodiscard]] GroundLoad ground_at(std::uint64_t index) const;

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace footing
