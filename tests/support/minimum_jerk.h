#pragma once

#include <algorithm>

namespace footing::testing {

/// From 0 to 1 while `u` does the same, level beyond: as smooth as a reach can be (minimum jerk: Flash and
/// Hogan 1985, J Neurosci 5:1688).
inline double minimum_jerk(double u) {
    const double part = std::clamp(u, 0.0, 1.0);
    return part * part * part * (10.0 - 15.0 * part + 6.0 * part * part);
}

/// The same between two times.
inline double minimum_jerk(double t, double from_s, double to_s) {
    return minimum_jerk((t - from_s) / (to_s - from_s));
}

}  // namespace footing::testing
