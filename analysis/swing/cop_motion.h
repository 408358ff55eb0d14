#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// The centre of pressure over a span, stance frame, zero-lag low pass at 10 Hz (docs/formulas.md, F35); NaN
/// where it is not known. The filter sees half a second more at both ends, so that its start and stop lie
/// outside.
struct CopMotion {
    double rate_hz = 0.0;
    std::vector<double> x_m;
    std::vector<double> y_m;
};
[[nodiscard]] CopMotion cop_motion(const LoadTrace& trace, Hand hand, double from_s, double to_s);

/// From the end of the address to the finish; absent without both, or where less than nine tenths of it is
/// known.
[[nodiscard]] std::optional<CopTravel> measure_cop_travel(const LoadTrace& trace, Hand hand,
                                                          const SwingEvents& events);

/// Over [from_s, to_s); absent for less than 0.2 s or where the CoP is not known all the time (F39).
/// `feet_known` false leaves the share out.
[[nodiscard]] std::optional<ShortSway> measure_short_sway(const LoadTrace& trace, Hand hand, double from_s,
                                                          double to_s, bool feet_known);

}  // namespace footing
