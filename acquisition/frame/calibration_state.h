#pragma once

#include <string>

namespace footing {

/// How far the scale behind a recording's loads may be believed.
enum class CalibrationState {
    valid,     ///< a calibration record that held on the day
    expired,   ///< a record whose last day was past
    nominal,   ///< no record: what the device says of itself
    absent,    ///< no record, and the device states no scale: only ratios and places hold
    external,  ///< values came as newtons; who calibrated them, and when, is not known here
};

/// "valid", "expired", "nominal", "absent", "external".
[[nodiscard]] std::string calibration_state_name(CalibrationState state);

}  // namespace footing
