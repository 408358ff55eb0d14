#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_file.h"
#include "acquisition/import/c3d_geometry.h"

namespace footing {

/// Force and moment on one plate.
struct C3dWrench {
    C3dVector force_n{};
    C3dVector moment_n_m{};
};

/// One force plate as the file describes it. Lengths in metres.
struct C3dPlate {
    enum class Type {
        six_components = 2,     ///< Fx Fy Fz Mx My Mz
        eight_sensors = 3,      ///< Fx12 Fx34 Fy14 Fy23 Fz1 Fz2 Fz3 Fz4
        calibration_matrix = 4  ///< six channels, to be multiplied by a matrix
    } type = Type::six_components;
    std::vector<std::size_t> channels;  ///< 0-based, 6 or 8
    C3dVector centre{};                 ///< of the surface, in the file's frame
    C3dVector x{};  ///< the plate's own axes in the file's frame, at right angles, length 1
    C3dVector y{};
    C3dVector z{};       ///< into the floor
    C3dVector origin{};  ///< types 2 and 4: from the sensors' origin to the surface's centre, in the plate's
                         ///< axes; type 3: half the distances of the sensors, and their depth
    double force_unit_n = 1.0;
    double moment_unit_n_m = 1.0;
    std::array<double, 36> matrix{};  ///< type 4: first index (the output) fastest

    /// From the values of its channels (shape [channels.size()]): what the file calls force and moment, in
    /// the plate's own axes, N and N m, the moment about the centre of the surface.
    [[nodiscard]] C3dWrench wrench(std::span<const double> values) const;
};

/// A plate that the file declares, and why it cannot be used if so.
struct C3dPlateEntry {
    std::optional<C3dPlate> plate;
    std::optional<Problem> problem;
};

/// All plates of the FORCE_PLATFORM group, in the file's order. Fails with bad_input when there are none.
[[nodiscard]] Result<std::vector<C3dPlateEntry>> read_c3d_plates(const C3dFile& file);

}  // namespace footing
