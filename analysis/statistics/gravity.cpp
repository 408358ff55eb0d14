#include "analysis/statistics/gravity.h"

#include <cmath>
#include <numbers>

namespace footing {

namespace {

// WGS 84.
constexpr double equator_m_s2 = 9.7803253359;
constexpr double somigliana_k = 0.00193185265241;
constexpr double eccentricity_squared = 0.00669437999014;
constexpr double semi_major_axis_m = 6378137.0;
constexpr double flattening = 1.0 / 298.257223563;
constexpr double centrifugal_ratio = 0.00344978650684;  ///< omega^2 a^2 b / (G M)

double sine_squared(double latitude_deg) {
    const double sine = std::sin(latitude_deg * std::numbers::pi / 180.0);
    return sine * sine;
}

}  // namespace

double normal_gravity_m_s2(double latitude_deg) {
    const double s = sine_squared(latitude_deg);
    return equator_m_s2 * (1.0 + somigliana_k * s) / std::sqrt(1.0 - eccentricity_squared * s);
}

double local_gravity_m_s2(double latitude_deg, double height_m) {
    const double ratio = height_m / semi_major_axis_m;
    const double first = 1.0 + flattening + centrifugal_ratio - 2.0 * flattening * sine_squared(latitude_deg);
    return normal_gravity_m_s2(latitude_deg) * (1.0 - 2.0 * first * ratio + 3.0 * ratio * ratio);
}

double local_gravity_relative_u() {
    return 1e-4 / std::sqrt(3.0);
}

double unknown_gravity_relative_u() {
    const double pole = normal_gravity_m_s2(90.0);
    const double equator = normal_gravity_m_s2(0.0);
    return (pole - equator) / (pole + equator) / std::sqrt(3.0);
}

}  // namespace footing
