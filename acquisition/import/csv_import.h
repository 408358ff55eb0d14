#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "acquisition/frame/work_watch.h"

namespace footing {

struct CsvImportOptions {
    Hand hand = Hand::right;
    std::optional<std::filesystem::path> layout;  ///< JSON; needed for cells and grids
    double newtons_per_unit = 1.0;  ///< of the loads of feet or of one plate; cells have it in the layout
    WorkWatch* watch = nullptr;     ///< told how far it is, and asked whether to go on
};

/// What an import made, for people.
struct CsvImportSummary {
    std::uint64_t frames = 0;
    std::uint64_t frames_missing = 0;
    std::size_t gaps = 0;
    double rate_hz = 0.0;
    double duration_s = 0.0;
    std::vector<std::string> notes;
    std::vector<std::string> doubts;  ///< what looks like other units; also in the recording
};

/// Makes a recording of a table of loads (CsvDocument says which). All of the table is checked before the
/// recording is begun, and the recording appears whole or not at all. Rows that are missing from an even grid
/// of times become gaps, and the outcome is then lossy. The start is the file's date of last change, as the
/// table has none of its own; the device's clock is the table's. Fails with bad_input (table or layout) or
/// disk_failed.
[[nodiscard]] Result<CsvImportSummary> import_csv(const std::filesystem::path& csv,
                                                  const std::filesystem::path& recording,
                                                  const CsvImportOptions& options);

}  // namespace footing
