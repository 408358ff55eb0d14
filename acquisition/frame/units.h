#pragma once

#include <cstdint>

namespace footing {

/// Exact by definition (3rd CGPM, 1901).
inline constexpr double standard_gravity_m_s2 = 9.80665;

inline constexpr double metres_per_mm = 1e-3;
inline constexpr double mm_per_metre = 1e3;
inline constexpr double seconds_per_us = 1e-6;
inline constexpr double seconds_per_ns = 1e-9;
inline constexpr double ms_per_ns = 1e-6;
inline constexpr std::int64_t ns_per_s = 1'000'000'000;

/// A point of the ground, in the plate frame unless it says otherwise: x to the golfer's right, y ahead (to
/// the toes).
struct PointM {
    double x_m = 0.0;
    double y_m = 0.0;
    friend bool operator==(const PointM&, const PointM&) = default;
};

/// Which way the golfer plays. The lead foot is the one nearer the target: the left foot of a right-handed
/// golfer.
enum class Hand { right, left };

}  // namespace footing
