#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/calibration_fit_plate.h"
#include "viewer/calibration/calibration_work.h"

namespace footing {

/// What a weighted sum of a plate's counts read under each load; at one cell only, if that is named.
[[nodiscard]] std::vector<LoadReading> loads_on(const CalibrationWork& work, std::size_t plate,
                                                std::optional<std::size_t> cell,
                                                const std::vector<double>& weights);

/// What the cell `answering` read under each load over `cell`.
[[nodiscard]] std::vector<LoadReading> cell_loads(const CalibrationWork& work, std::size_t plate,
                                                  std::size_t cell, std::size_t answering);

/// Part of the loads over this cell that the other cells of its plate answered to, if all cells are alike.
[[nodiscard]] double carried_elsewhere(const CalibrationWork& work, std::size_t plate, std::size_t cell);

/// A plate's readings for the fit as a whole, without those that were only held for creep.
[[nodiscard]] std::vector<PlateReading> plate_readings(const CalibrationWork& work, std::size_t plate);

}  // namespace footing
