#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/import/c3d_parameters.h"

namespace footing {

/// What this program keeps in a C3D file beside what the format has a place for (c3d_format.h): when the
/// lesson began, and how well its loads are known; what is absent, or cannot be, is absent here.
struct C3dProvenance {
    std::optional<std::int64_t> start_utc_ns;
    std::string zone;  ///< empty: not known
    /// Of the plates that were recorded; for values that come as newtons (no gains, no zeros).
    std::optional<Calibration> calibration;
    /// The file keeps something of a calibration that cannot be true.
    bool calibration_is_odd = false;
};

[[nodiscard]] C3dProvenance c3d_provenance(const C3dParameters& parameters);

}  // namespace footing
