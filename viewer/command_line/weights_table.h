#pragma once

#include <string>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/frame/result.h"

namespace footing {

/// What stands on the simulated plates and when, from a table with the columns from_s, to_s, plate (left or
/// right), kg and, where it is not the plate's centre, x_mm and y_mm from there. Fails with bad_input, naming
/// the line.
[[nodiscard]] Result<std::vector<PlacedWeight>> parse_weights(const std::string& text,
                                                              const std::string& place);

}  // namespace footing
