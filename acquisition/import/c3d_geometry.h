#pragma once

#include <array>
#include <cmath>
#include <cstddef>

namespace footing {

/// A direction, place, force or moment in space.
using C3dVector = std::array<double, 3>;

[[nodiscard]] inline C3dVector operator+(const C3dVector& a, const C3dVector& b) {
    return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}
[[nodiscard]] inline C3dVector operator-(const C3dVector& a, const C3dVector& b) {
    return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
[[nodiscard]] inline C3dVector operator*(double factor, const C3dVector& a) {
    return {factor * a[0], factor * a[1], factor * a[2]};
}
[[nodiscard]] inline double dot(const C3dVector& a, const C3dVector& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
[[nodiscard]] inline C3dVector cross(const C3dVector& a, const C3dVector& b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
[[nodiscard]] inline double length(const C3dVector& a) {
    return std::sqrt(dot(a, a));
}
/// Of length 1; `a` is not zero.
[[nodiscard]] inline C3dVector direction(const C3dVector& a) {
    return (1.0 / length(a)) * a;
}
/// What of `a` lies across `normal`, which has length 1.
[[nodiscard]] inline C3dVector across(const C3dVector& a, const C3dVector& normal) {
    return a - dot(a, normal) * normal;
}

}  // namespace footing
