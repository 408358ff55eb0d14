#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/feet_options.h"
#include "analysis/pressure/mat_areas.h"

namespace footing {

/// One foot as a mat shows it.
struct FootOnMat {
    double load_n = 0.0;
    PointM cop;     ///< plate frame
    PointM centre;  ///< of the touched area, each element counting alike
    /// The angle by which the toes point outwards (to the left for the left foot); absent when only heel or
    /// forefoot touch, so that the foot's line cannot be seen.
    std::optional<double> toe_out_rad;
    std::optional<double> toe_share;  ///< load before the middle of the foot's length, of its load, 0 to 1
    std::optional<double> outside_share;  ///< load on the outer side of the foot's line, of its load, 0 to 1
    double length_m = 0.0;                ///< of the touched area along the foot's line, or ahead
    std::size_t elements = 0;             ///< touched
    std::size_t clipped = 0;              ///< of them, at the end of their range: the load is a lower bound
    std::size_t dead = 0;                 ///< of them, filled in from their neighbours
};

struct FeetOnMat {
    std::optional<FootOnMat> left;
    std::optional<FootOnMat> right;
    double other_n = 0.0;                  ///< load of whatever else touches: a third blob, specks
    std::size_t blobs = 0;                 ///< connected areas, before they were joined to feet
    std::optional<double> stance_width_m;  ///< between the feet's centres, across; with both feet
};

/// Finds the feet in one frame of a mat (docs/feet_on_mat.md). `force_n`: newtons, shape [rows x columns],
/// row 1 at the toes' side. `midline_x_m` tells whose a foot alone is: left of it, the left one's; two feet
/// are told apart by which is further left. Areas are joined to one foot as long as together they are no
/// longer and no wider than a foot, in a direction within 45 degrees of ahead; an area wider than a foot is
/// two feet that touch, and is parted where it bears least. The two heaviest are the feet. Nothing for values
/// of another count, or not finite.
[[nodiscard]] FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n,
                                  const FeetOptions& options, double midline_x_m);
[[nodiscard]] FeetOnMat find_feet(const Grid& grid, std::span<const double> force_n,
                                  const FeetOptions& options = {});

}  // namespace footing
