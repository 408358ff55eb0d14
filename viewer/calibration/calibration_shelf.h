#pragma once

#include <filesystem>
#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Calibration records that are kept side by side in one folder, each in a file of its own that never
/// changes: "100001_2026-05-14.json", the second of a day "100001_2026-05-14_2.json". A lesson takes the
/// newest one of its plates.
class CalibrationShelf {
  public:
    explicit CalibrationShelf(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// A name that is free for a record of this device made on this day (ISO 8601 date); makes the folder.
    /// Fails with disk_failed.
    [[nodiscard]] Result<std::filesystem::path> new_file(std::uint32_t serial, const std::string& made) const;

    /// The newest sound record that fits the device, as JSON text; empty where there is none. Files that are
    /// no records are passed over.
    [[nodiscard]] std::string newest(const DeviceDescription& device) const;

  private:
    std::filesystem::path folder_;
};

/// The shelf of a lesson book: the folder "calibrations" beside it.
[[nodiscard]] CalibrationShelf shelf_beside(const std::filesystem::path& book);

}  // namespace footing
