#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/lesson/plates_view.h"

namespace footing {

/// What the window is to do with plates; it looks at this after each change, and puts it back to none.
enum class PlatesWish { none, listen, only_listen, check, calibrate, accept, stop };

/// Plates that nobody is taught on: numbers, quick check, calibration. Plain data; changed by carry_out()
/// only.
struct PlatesDesk {
    std::shared_ptr<const PlatesView> view;  ///< absent: nobody listens
    std::string typed;                       ///< masses of a calibration, or the weight of a check, kg
    CalibrationMethod method = CalibrationMethod::cells;
    PlatesWish wish = PlatesWish::none;
};

/// What was typed as masses in kg, divided by blanks or commas, growing; nothing where it is not that.
[[nodiscard]] std::optional<std::vector<double>> typed_masses(const std::string& typed);

/// One line of how the plates are.
struct HealthLine {
    enum class State { good, look_at_it } state = State::good;
    std::string words;
};
/// Rate, loss, noise, zero, calibration, each in words; `view` has heard the plates.
[[nodiscard]] std::vector<HealthLine> plates_health(const PlatesView& view);

}  // namespace footing
