#pragma once

#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"

namespace footing {

/// What a calibration found and what that means, as lines of text for a terminal or a page: how it was made,
/// a table of gains and errors in the words of OIML R 60, what a load and a share are worth with it, the
/// remarks.
[[nodiscard]] std::string calibration_words(const Calibration& record, const DeviceDescription& device,
                                            const std::vector<std::string>& remarks);

/// Two standard uncertainties of a lead share of `share`, in [0, 1], as far as the calibration goes.
[[nodiscard]] double share_certainty(const Calibration& record, double share);

/// A number with no more digits than its uncertainty bears: "0.25012 ± 0.00003".
[[nodiscard]] std::string with_uncertainty(double value, double uncertainty);

}  // namespace footing
