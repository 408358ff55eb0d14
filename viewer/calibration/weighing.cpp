#include "viewer/calibration/weighing.h"

#include <fmt/format.h>

#include "acquisition/frame/units.h"
#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/gravity.h"

namespace footing {

Weighing weighing_at(std::optional<double> latitude_deg, std::optional<double> height_m,
                     std::optional<double> gravity_m_s2, double mass_tolerance_percent) {
    Weighing weighing;
    weighing.mass_relative_u = rectangular_u(mass_tolerance_percent / 100.0);
    if (gravity_m_s2) {
        weighing.gravity_m_s2 = *gravity_m_s2;
        weighing.gravity_source = "as given";
    } else if (latitude_deg) {
        weighing.gravity_m_s2 = local_gravity_m_s2(*latitude_deg, height_m.value_or(0.0));
        weighing.gravity_relative_u = local_gravity_relative_u();
        weighing.gravity_source =
            fmt::format("latitude {:g} degrees, height {:g} m", *latitude_deg, height_m.value_or(0.0));
    } else {
        weighing.gravity_m_s2 = standard_gravity_m_s2;
        weighing.gravity_relative_u = unknown_gravity_relative_u();
        weighing.gravity_source = "standard gravity, the place is not known";
    }
    return weighing;
}

}  // namespace footing
