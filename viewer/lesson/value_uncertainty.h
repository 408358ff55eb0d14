#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/load_uncertainty.h"

namespace footing {

/// What the calibration and the zeros of a recording leave to be known of its values (docs/formulas.md, G2 to
/// G5). `day`: ISO 8601 date of the recording, since an expired record is worth less. `zeros`: in order of
/// time, times in the device's microseconds; `first_time_us` is that of the first frame. Without zeros only
/// the stated default holds.
[[nodiscard]] ValueUncertainty value_uncertainty(const Calibration& calibration, const PlateLayout& layout,
                                                 std::string_view day, std::span<const ZeroEvent> zeros,
                                                 std::uint64_t first_time_us);

}  // namespace footing
