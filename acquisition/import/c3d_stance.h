#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_import.h"
#include "acquisition/import/c3d_plate.h"

namespace footing {

/// One plate that somebody stood on, seen from the golfer.
struct C3dFootPlate {
    std::size_t number = 1;  ///< 1-based, as the file counts
    C3dPlate plate;
    Plate place;  ///< name and centre, in the plate frame of docs/recording_format.md
    /// Golfer's right, ahead and up, in the plate's own axes.
    C3dVector right{};
    C3dVector ahead{};
    C3dVector up{};

    /// The plate's own axes -> the golfer's.
    [[nodiscard]] C3dVector seen(const C3dVector& plate_axes) const {
        return {dot(plate_axes, right), dot(plate_axes, ahead), dot(plate_axes, up)};
    }
};

/// Where the golfer stood and which way, as far as the file or the user tells.
struct C3dStance {
    std::vector<C3dFootPlate> plates;  ///< left before right
    std::vector<std::string> remarks;  ///< what was assumed, for people
};

/// Picks the plates and turns them into the golfer's frame; the rules stand at import_c3d. Fails with
/// command_line (a plate named that is not there, feet crossed) or bad_input (plates that cannot be used or
/// do not lie in one plane).
[[nodiscard]] Result<C3dStance> choose_c3d_stance(const std::vector<C3dPlateEntry>& entries,
                                                  const C3dImportOptions& options, const std::string& place);

}  // namespace footing
