#pragma once

namespace footing {

/// Normal gravity on the WGS 84 ellipsoid, m/s2 (Somigliana 1929; constants of NIMA TR8350.2). `latitude_deg`
/// in [-90, 90].
[[nodiscard]] double normal_gravity_m_s2(double latitude_deg);

/// The same at a height above the ellipsoid (free air to second order, Heiskanen & Moritz 1967, eq. 2-123).
/// Height above sea level serves: the two differ by less than 110 m, 0.0003 m/s2.
[[nodiscard]] double local_gravity_m_s2(double latitude_deg, double height_m);

/// Relative standard uncertainty of local_gravity_m_s2 as the gravity of a real place: rocks and hills pull
/// up to about 1 part in 10,000 to either side (common practice, no source; rectangular, GUM 4.3.7).
[[nodiscard]] double local_gravity_relative_u();

/// Relative standard uncertainty of standard gravity where nobody knows where on Earth the plates stand:
/// from equator to pole it changes by 0.53 %, rectangular.
[[nodiscard]] double unknown_gravity_relative_u();

}  // namespace footing
