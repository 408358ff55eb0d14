#pragma once

#include <optional>
#include <string>

namespace footing {

/// What the masses weigh, and how sure that is.
struct Weighing {
    double gravity_m_s2 = 9.80665;
    double gravity_relative_u = 0.0;
    std::string gravity_source;
    double mass_relative_u = 0.0;  ///< standard uncertainty of the masses, common to all of them
};

/// Gravity from latitude and height; from a value as given; or standard gravity, with the uncertainty of not
/// knowing where the plates stand.
[[nodiscard]] Weighing weighing_at(std::optional<double> latitude_deg, std::optional<double> height_m,
                                   std::optional<double> gravity_m_s2, double mass_tolerance_percent);

}  // namespace footing
