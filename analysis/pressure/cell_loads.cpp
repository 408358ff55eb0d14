#include "analysis/pressure/cell_loads.h"

#include <algorithm>

namespace footing {

namespace {

/// x and y at once.
using Pair = double __attribute__((vector_size(16)));

struct FootLoad {
    double force_n = 0.0;
    Pair moment_n_m{0.0, 0.0};
};

/// A plate's cells; their count is known beforehand where it is the usual four.
template <std::size_t Count, typename Cell>
inline FootLoad add_up(const Cell* cells, std::size_t count, const double* force_n) {
    FootLoad foot;
    for (std::size_t i = 0; i < (Count > 0 ? Count : count); ++i) {
        const double force = force_n[cells[i].value];
        foot.force_n += force;
        foot.moment_n_m += Pair{force, force} * Pair{cells[i].at_m[0], cells[i].at_m[1]};
    }
    return foot;
}

/// NaN in both where there is too little load.
inline Pair centre(const FootLoad& foot, double load_floor_n) {
    const bool enough = foot.force_n >= load_floor_n && foot.force_n > 0.0;
    const double force_n = enough ? foot.force_n : unknown;
    return foot.moment_n_m / Pair{force_n, force_n};
}

}  // namespace

CellLoads::CellLoads(const PlateLayout& layout, const std::vector<PlateSide>& sides, bool feet_known,
                     double load_floor_n)
    : feet_known_(feet_known), load_floor_n_(load_floor_n) {
    for (std::size_t plate = 0; plate < layout.plates.size(); ++plate) {
        for (std::size_t i = 0; i < layout.plates[plate].cells.size(); ++i) {
            const PointM at = cell_position(layout.plates[plate], i);
            (sides[plate] == PlateSide::left ? left_ : right_).push_back({values_, {at.x_m, at.y_m}});
            ++values_;
        }
    }
}

/// The loads of one frame as they are put anywhere: one sum for both ways of asking.
struct CellLoads::Frame {
    double left_n, right_n;
    Pair cop, left_cop, right_cop;
};

template <std::size_t Count>
inline CellLoads::Frame CellLoads::frame(const double* force_n) const {
    const FootLoad left = add_up<Count>(left_.data(), left_.size(), force_n);
    const FootLoad right = add_up<Count>(right_.data(), right_.size(), force_n);
    const FootLoad all{left.force_n + right.force_n, left.moment_n_m + right.moment_n_m};
    return {left.force_n, right.force_n, centre(all, load_floor_n_), centre(left, load_floor_n_),
            centre(right, load_floor_n_)};
}

LoadRow CellLoads::reduce(std::span<const double> force_n) const {
    const Frame of = frame<0>(force_n.data());
    const double total_n = of.left_n + of.right_n;
    if (!feet_known_)
        return {total_n, unknown, unknown, of.cop[0], of.cop[1], unknown, unknown, unknown, unknown};
    return {total_n,        of.left_n,      of.right_n,      of.cop[0],      of.cop[1],
            of.left_cop[0], of.left_cop[1], of.right_cop[0], of.right_cop[1]};
}

template <std::size_t Count>
void CellLoads::reduce_all(std::span<const double> force_n, std::size_t first_row, LoadColumns& into) const {
    const std::size_t rows = force_n.size() / values_;
    for (std::size_t i = 0; i < rows; ++i) {
        const Frame of = frame<Count>(force_n.data() + i * values_);
        const std::size_t at = first_row + i;
        into.total_n[at] = of.left_n + of.right_n;
        into.cop_x_m[at] = of.cop[0];
        into.cop_y_m[at] = of.cop[1];
        into.left_n[at] = of.left_n;
        into.right_n[at] = of.right_n;
        into.left_x_m[at] = of.left_cop[0];
        into.left_y_m[at] = of.left_cop[1];
        into.right_x_m[at] = of.right_cop[0];
        into.right_y_m[at] = of.right_cop[1];
    }
    if (feet_known_) return;
    for (std::vector<double>* column :
         {&into.left_n, &into.right_n, &into.left_x_m, &into.left_y_m, &into.right_x_m, &into.right_y_m})
        std::fill_n(column->begin() + static_cast<std::ptrdiff_t>(first_row), rows, unknown);
}

void CellLoads::reduce(std::span<const double> force_n, std::size_t first_row, LoadColumns& into) const {
    if (values_ == 0) return;
    if (left_.size() == 4 && right_.size() == 4) return reduce_all<4>(force_n, first_row, into);
    reduce_all<0>(force_n, first_row, into);
}

}  // namespace footing
