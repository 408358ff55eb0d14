#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/feet_options.h"

namespace footing {

/// A touched element of a mat.
struct MatElement {
    PointM at;  ///< its centre, plate frame
    double load_n = 0.0;
    std::uint32_t index = 0;  ///< in the frame, row by row
};

/// Touched elements that belong together.
using MatArea = std::vector<MatElement>;

[[nodiscard]] double load_of(const MatArea& area);
/// Of the touched area, each element counting alike. The area is not empty.
[[nodiscard]] PointM centre_of(const MatArea& area);

/// A direction on the ground, turned by `turn_rad` from ahead towards the right.
class Heading {
  public:
    explicit Heading(double turn_rad);
    [[nodiscard]] double along(PointM at) const { return at.x_m * sine_ + at.y_m * cosine_; }
    [[nodiscard]] double across(PointM at) const { return at.x_m * cosine_ - at.y_m * sine_; }

  private:
    double sine_;
    double cosine_;
};

/// How far an area reaches along and across a direction, the elements' own size included.
struct Reach {
    double from_m = 0.0;
    double to_m = 0.0;
    double width_m = 0.0;
    [[nodiscard]] double length_m() const { return to_m - from_m; }
};
[[nodiscard]] Reach reach_of(const MatArea& area, const Heading& heading, const Grid& grid);

/// Whether some direction within 45 degrees of ahead makes it no longer and no wider than a foot.
[[nodiscard]] bool fits_a_foot(const MatArea& area, const Grid& grid, const FeetOptions& options);

/// Connected areas of touched elements, by their edges and corners (8 neighbours). `touched` and the result:
/// shape [rows x columns]; 0: not touched, else 1, 2, … in the order in which a reader meets them.
[[nodiscard]] std::vector<std::uint32_t> label_areas(std::span<const std::uint8_t> touched, std::size_t rows,
                                                     std::size_t columns);

/// Puts the mean of the live elements around it in place of each element that is dead, where at least three
/// of them are touched, else 0. `force_n`: shape [rows x columns].
void fill_dead(const Grid& grid, const FeetOptions& options, std::span<double> force_n);

/// Areas that may be feet, the heaviest first (docs/feet_on_mat.md, steps 1 to 4).
struct MatAreas {
    std::vector<MatArea> areas;
    double other_n = 0.0;  ///< of blobs beyond those that were looked at
};

/// `force_n`: newtons, finite, shape [rows x columns], dead elements filled.
[[nodiscard]] MatAreas find_areas(const Grid& grid, std::span<const double> force_n,
                                  const FeetOptions& options);

}  // namespace footing
