#pragma once

#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"
#include "analysis/statistics/calibration_fit_mat.h"
#include "viewer/calibration/weighing.h"

namespace footing {

struct MadeCalibration {
    Calibration record;
    std::vector<std::string> remarks;  ///< what a coach should know of it, one sentence each
};

/// From readings to a record. Masses over cells give a straight line a cell; where a good part of such a load
/// was carried by other cells, or the masses stood at marked points, each plate gets a cell matrix by least
/// squares; a weight somewhere on the plates gives one factor a plate. `made`: ISO 8601 date. `valid_months`:
/// 0 for no end. Fails with bad_input: too few readings, a cell or plate without any, no answer to a load.
[[nodiscard]] Result<MadeCalibration> make_calibration(const DeviceDescription& device,
                                                       const std::vector<CalibrationReading>& readings,
                                                       const Weighing& weighing, const std::string& made,
                                                       int valid_months);

/// The same for a mat, with what the walk told of its elements.
[[nodiscard]] Result<MadeCalibration> make_mat_calibration(const DeviceDescription& device,
                                                           const std::vector<CalibrationReading>& readings,
                                                           const MatFindings& findings,
                                                           const Weighing& weighing, const std::string& made,
                                                           int valid_months);

}  // namespace footing
