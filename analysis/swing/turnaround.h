#pragma once

#include <cstddef>

#include "analysis/swing/swing.h"
#include "analysis/swing/swing_motion.h"

namespace footing {

/// When the share turns back to the lead side between two entries of the motion, where it is expected at
/// about `expected_s` (docs/formulas.md, F25): between the flanks of the share, where both are seen; else
/// where the share is lowest.
[[nodiscard]] Event find_turnaround(const SwingMotion& motion, std::size_t from, std::size_t to,
                                    double expected_s);

}  // namespace footing
