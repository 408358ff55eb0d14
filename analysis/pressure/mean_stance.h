#pragma once

#include <cstddef>
#include <optional>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_uncertainty.h"
#include "analysis/pressure/trace_stretch.h"

namespace footing {

/// A number with its standard uncertainty.
struct KnownValue {
    double value = 0.0;
    double u = 0.0;
};

/// A place with the standard uncertainties of its x and y.
struct KnownPoint {
    PointM at;
    PointM u;
};

/// How somebody stood over a stretch of a recording: means with their uncertainties, all contributions
/// together. Stance frame; what is not known is absent.
struct MeanStance {
    std::optional<KnownValue> lead_share;
    std::optional<KnownPoint> cop;
    std::optional<KnownPoint> lead_cop;
    std::optional<KnownPoint> trail_cop;
};

/// Mean loads and places over a stretch, plate frame: what systematic uncertainties are computed for. The
/// noise is that of one sample of the total.
[[nodiscard]] MeanLoad mean_load(const LoadTrace& trace, TraceStretch stretch);

/// Means over a stretch in which somebody stands still (docs/formulas.md, G1 to G6): u^2 = noise and sway of
/// the mean + gains + zeros + quantisation.
[[nodiscard]] MeanStance mean_stance(const LoadTrace& trace, TraceStretch stretch, Hand hand,
                                     const LoadUncertainty& uncertainty);

/// An instant in motion.
struct InstantInMotion {
    double time_s = 0.0;
    double u_s = 0.0;      ///< how well the instant itself is known
    double half_s = 0.0;   ///< places are means over the instant and so much to either side
    TraceStretch resting;  ///< where the noise is seen: somebody stands still there
};

/// Places at an instant in motion (docs/formulas.md, G7): u^2 = noise of a mean that short, as seen at rest,
/// + the larger change within the instant's own uncertainty + gains + zeros + quantisation. Without
/// lead_share, which is smoothed in another way.
[[nodiscard]] MeanStance stance_at(const LoadTrace& trace, const InstantInMotion& instant, Hand hand,
                                   const LoadUncertainty& uncertainty);

}  // namespace footing
