#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/load_columns.h"

namespace footing {

/// Loads and centres of pressure of plates on cells (docs/formulas.md, F1 and F4), frame by frame or many
/// frames at once with the same arithmetic, so that both give the same bits. Allocates only when it is made.
class CellLoads {
  public:
    CellLoads() = default;
    /// `sides`: one entry a plate. Below `load_floor_n` there is no centre of pressure.
    CellLoads(const PlateLayout& layout, const std::vector<PlateSide>& sides, bool feet_known,
              double load_floor_n);

    /// `force_n`: newtons, shape [values].
    [[nodiscard]] LoadRow reduce(std::span<const double> force_n) const;
    /// `force_n`: newtons, shape [frames x values]; puts the rows into `into` from `first_row` on, which has
    /// room for them.
    void reduce(std::span<const double> force_n, std::size_t first_row, LoadColumns& into) const;

  private:
    struct Cell {
        std::size_t value = 0;  ///< in the frame
        double at_m[2] = {0.0, 0.0};
    };

    struct Frame;
    template <std::size_t Count>
    [[nodiscard]] Frame frame(const double* force_n) const;
    template <std::size_t Count>
    void reduce_all(std::span<const double> force_n, std::size_t first_row, LoadColumns& into) const;

    std::vector<Cell> left_;
    std::vector<Cell> right_;  ///< whatever is not under the left foot
    std::size_t values_ = 0;
    bool feet_known_ = false;
    double load_floor_n_ = 0.0;
};

}  // namespace footing
