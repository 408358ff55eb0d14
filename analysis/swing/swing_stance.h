#pragma once

#include <optional>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// How the feet stood on a mat at address (docs/formulas.md, F5).
struct SwingStance {
    FeetTold told = FeetTold::nobody;  ///< how they were told apart, through most of the address
    std::optional<double> width_m;     ///< between the middles of the feet, across
    std::optional<double> left_toe_out_rad;
    std::optional<double> right_toe_out_rad;
};

/// A share of one foot's load at the events of a swing, in [0, 1].
struct FootShares {
    std::optional<double> address;
    std::optional<double> top;
    std::optional<double> impact;
    std::optional<double> finish;
};

/// Where the load lies within each foot on a mat.
struct SwingFoot {
    FootShares toes;     ///< before the middle of the foot's length: 0 all on the heel, 1 all on the toes
    FootShares outside;  ///< 0 all on the inner side of the foot's line, 1 all on the outer
};

struct SwingFeet {
    SwingFoot left;
    SwingFoot right;
};

}  // namespace footing
