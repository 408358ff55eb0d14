#pragma once

#include <optional>

#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// Of a mat: mean over the address window. Absent on plates, or without an address.
[[nodiscard]] std::optional<SwingStance> measure_stance(const LoadTrace& trace, const SwingEvents& events);

/// Of a mat: means over the address window, 15 ms on both sides of top and impact, and 0.3 s from the finish.
/// Absent on plates.
[[nodiscard]] std::optional<SwingFeet> measure_feet(const LoadTrace& trace, const SwingEvents& events);

}  // namespace footing
