#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/cell_loads.h"
#include "analysis/pressure/feet_follower.h"
#include "analysis/pressure/load_columns.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/pressure/mat_columns.h"
#include "analysis/pressure/mat_midline.h"

namespace footing {

/// Below which loads nothing is said about where they act.
struct LoadOptions {
    double load_floor_n = 20.0;  ///< of a foot, or of both together: below it there is no CoP and no share
    double element_threshold_n = 0.0;  ///< mats: elements below it count as empty
    std::vector<std::uint8_t> dead;    ///< mats: 1 for elements that do not measure, one each; or empty
};

/// One frame in newtons -> loads and centres of pressure (docs/formulas.md, F1 to F5).
/// A small object called once a frame, in order. It holds state for mats only: the feet, which it follows
/// (docs/feet_on_mat.md), and the line between them, which parts the load where the feet cannot be seen each
/// for itself. Apart from looking for feet on a mat it allocates only when it is made.
class LoadReducer {
  public:
    explicit LoadReducer(PlateLayout layout, LoadOptions options = {});

    /// `force_n`: one value a cell or element in newtons, or the components of each plate in N and N m about
    /// the plate's own origin, in the order of the frame; shape [values_per_frame(layout)]. A moment that is
    /// NaN says that the CoP of that plate is not known. Fz is positive under load. Values of another count
    /// give an empty sample.
    [[nodiscard]] LoadSample reduce(std::span<const double> force_n);

    /// Plates of cells: many frames at once, bit for bit as one by one. `force_n`: shape [frames x values];
    /// the rows go into `into` from `first_row` on, which has room for them.
    void reduce_rows(std::span<const double> force_n, std::size_t first_row, LoadColumns& into) const;

    /// Mats: from now on elements that read these newtons or more are at the end of their range, one each.
    void set_clip(std::vector<double> clip_n) { clip_n_ = std::move(clip_n); }

    [[nodiscard]] const PlateLayout& layout() const { return layout_; }

  private:
    [[nodiscard]] LoadSample reduce_components(std::span<const double> force_n) const;
    [[nodiscard]] LoadSample reduce_grid(std::span<const double> force_n);
    [[nodiscard]] MatReading read_feet(FeetTold told) const;
    [[nodiscard]] std::optional<PointM> centre(const LoadSum& sum) const;
    [[nodiscard]] LoadSample sample(const LoadSum& all, const LoadSum& left, const LoadSum& right,
                                    bool feet_known) const;

    PlateLayout layout_;
    LoadOptions options_;
    std::size_t value_count_ = 0;
    bool feet_known_ = false;
    std::vector<PlateSide> sides_;
    CellLoads cells_;  ///< plates of cells
    MatColumns columns_;
    MatMidline midline_;
    std::optional<FeetFollower> follower_;
    FeetOptions feet_options_;
    std::vector<double> filled_n_;  ///< mats with dead elements: the frame with those filled, scratch
    std::vector<double> clip_n_;
};

}  // namespace footing
