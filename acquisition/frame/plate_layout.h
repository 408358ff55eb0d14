#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/units.h"

namespace footing {

/// Which foot stands on a plate. `whole`: both feet on one plate, so that the feet cannot be told apart by
/// load alone.
enum class PlateSide { left, right, whole };

/// One force plate: load cells under a top, or a plate that reports force components.
struct Plate {
    std::string name;           ///< as the device calls it: "left", "right", …
    PointM centre;              ///< of the plate's own origin, in the plate frame
    std::vector<PointM> cells;  ///< from the plate's centre, in the order of the counts; empty for components
};

/// A mat: rows x columns of sensing elements. Row 1 at the toes' side, column 1 at the golfer's left.
struct Grid {
    std::uint32_t rows = 0;
    std::uint32_t columns = 0;
    double pitch_x_m = 0.0;
    double pitch_y_m = 0.0;
    PointM centre;
};

/// Where each value of a frame was measured.
struct PlateLayout {
    FrameKind kind = FrameKind::cells;
    std::vector<Plate> plates;  ///< empty for a grid
    std::optional<Grid> grid;   ///< for a grid only
};

/// What a device says of itself (wire format, kind 1), or an import's layout file.
struct DeviceDescription {
    std::string name;
    std::uint32_t serial = 0;
    double rate_hz = 0.0;
    std::optional<double> full_scale_counts;
    std::optional<double>
        newtons_per_count;  ///< nominal, the same for all cells; absent: only ratios are known
    PlateLayout layout;
};

inline constexpr std::size_t components_per_plate = 6;  ///< Fx Fy Fz Mx My Mz
/// Bounds that no real device exceeds; what exceeds them is refused before anything is allocated for it.
inline constexpr std::size_t most_cells = 256;
inline constexpr std::size_t most_plates = 16;
inline constexpr std::size_t most_grid_values = 128 * 128;

/// Values in one frame of this layout.
[[nodiscard]] std::size_t values_per_frame(const PlateLayout& layout);

/// Where on the ground cell `cell` of plate `plate` stands.
[[nodiscard]] PointM cell_position(const Plate& plate, std::size_t cell);

/// Centre of the sensing element at 0-based row and column.
[[nodiscard]] PointM element_position(const Grid& grid, std::size_t row, std::size_t column);

/// The foot each plate carries: by its name ("left", "right"), else, with exactly two plates, by which one is
/// further to the golfer's left; a plate alone is `whole`. Shape: one entry a plate.
[[nodiscard]] std::vector<PlateSide> plate_sides(const PlateLayout& layout);

}  // namespace footing
