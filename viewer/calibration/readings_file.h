#pragma once

#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Calibration readings as a table (docs/calibration.md): header
/// step,mass_kg,plate,cell,x_mm,y_mm,time_s,count_1,…,count_n. `cell` (1, 2, … within its plate) for a mass
/// over a cell, `x_mm` and `y_mm` (from the plate's centre) for one at a marked point, neither for a weight
/// somewhere on the plate. mass_kg 0: empty. Lines in the order of time.
[[nodiscard]] std::string readings_header(const DeviceDescription& device);
[[nodiscard]] std::string readings_line(const CalibrationReading& reading, const DeviceDescription& device);

/// Reads such a table; plate, cell, x_mm, y_mm, step and time_s may be absent as columns. Without time_s
/// readings stand a minute apart. Fails with bad_input, naming the line.
[[nodiscard]] Result<std::vector<CalibrationReading>> parse_readings(const std::string& text,
                                                                     const std::string& place,
                                                                     const DeviceDescription& device);

}  // namespace footing
