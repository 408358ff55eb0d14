#pragma once

#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/calibration/calibration_shelf.h"

namespace footing {

/// What --calibration says: files with records, or the word "kept" for the newest one of the usual shelf.
struct GivenCalibrations {
    std::vector<std::string> texts;  ///< of the files, as JSON
    bool kept = false;

    /// The record for a device, as JSON: of the files the one that fits, else the newest kept one where that
    /// is wanted; empty where there is none.
    [[nodiscard]] std::string record_for(const DeviceDescription& device,
                                         const CalibrationShelf& shelf) const;
};

/// Reads the files and sees that each is a record. Fails with bad_input, or as reading the file does.
[[nodiscard]] Result<GivenCalibrations> given_calibrations(const std::vector<std::string>& words);

/// The shelf beside the usual lesson book.
[[nodiscard]] Result<CalibrationShelf> usual_shelf();

}  // namespace footing
