#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/centre_of_mass.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// An estimate of the centre of mass over the ground from the CoP (docs/formulas.md, F48), plate frame, one
/// entry a sampling instant from `first` on. Empty where the CoP is not known all the time.
struct MassPath {
    std::size_t first = 0;
    std::vector<PointM> place;
};
/// Over [from_s, to_s]; up to three seconds more at both ends are used, as far as somebody stands there.
[[nodiscard]] MassPath mass_path(const LoadTrace& trace, const Pendulum& pendulum, double from_s,
                                 double to_s);

/// The estimate at the events of a swing, stance frame.
[[nodiscard]] SwingCop mass_at_events(const LoadTrace& trace, Hand hand, const Pendulum& pendulum,
                                      const SwingEvents& events);

}  // namespace footing
