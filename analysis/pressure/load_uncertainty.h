#pragma once

#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"

namespace footing {

/// By how much each value of an empty plate had moved from one zero to the next; when in between is not
/// known.
struct ZeroShift {
    double from_s = 0.0;
    double to_s = 0.0;            ///< the later zero; infinity after the last one
    std::vector<double> shift_n;  ///< newtons, one a value; for mats one number, the total
};

/// What is known beforehand of how wrong the values of a frame may be. Noise and sway are not in it: they are
/// seen in the recording itself. What all values have in common (one set of masses, one gravity) is not in it
/// either, since shares and places do not feel it. The defaults are stated ones, for loads of which nothing
/// is known (docs/formulas.md, G1 to G5).
struct ValueUncertainty {
    /// Relative standard uncertainty of an even load on one plate; on a mat, of one foot's load.
    double gain_relative_u = 0.003;
    /// Relative covariance of the values' gains, row-major [value, value]; layouts of cells only. Empty: each
    /// value's gain is off by itself, so that an even load has gain_relative_u.
    std::vector<double> gain_covariance;
    double zero_n = 1.0;  ///< standard uncertainty of each side's zero, of which the recording shows nothing
    std::vector<ZeroShift> zero_shifts;
    double count_n = 0.0;  ///< newtons of one count; 0: the values are no counts
};

/// Mean loads over a stretch of a recording; `unknown` and absent as in LoadSample.
struct MeanLoad {
    double time_s = 0.0;
    LoadSample load;
    double noise_n = 0.0;  ///< standard deviation of one sample of the total, for what quantisation leaves
};

/// Standard uncertainties of what is computed from a frame; NaN where the quantity is not known. Points are
/// the uncertainties of x and y.
struct LoadU {
    double share = unknown;  ///< of left / (left + right), which is also that of the lead share
    PointM cop{unknown, unknown};
    PointM left_cop{unknown, unknown};
    PointM right_cop{unknown, unknown};
};

/// Propagates the uncertainty of gains, zeros and quantisation to shares and centres of pressure (JCGM
/// 100:2008, 5.2.2; docs/formulas.md, G1 to G5). How a foot's load is spread over its cells follows from its
/// load and place (a rigid plate on alike cells). Immutable; any thread.
class LoadUncertainty {
  public:
    /// Nothing is known of the plates: stated defaults, each foot on four supports of its own.
    LoadUncertainty() = default;
    LoadUncertainty(PlateLayout layout, ValueUncertainty known);

    [[nodiscard]] LoadU of(const MeanLoad& mean) const;

  private:
    /// Where load is measured: a cell, a corner of a plate with components, a part of a foot on a mat.
    struct Support {
        PointM place;
        PlateSide side = PlateSide::whole;
        double gain_u = 0.0;  ///< relative, unless gain_covariance says it
        double force_n = 0.0;
        double zero_u_n = 0.0;
        double shift_n = 0.0;  ///< by which the zero may have moved, in all supports alike in time
    };

    [[nodiscard]] std::vector<Support> supports_under(const MeanLoad& mean) const;
    void add_fixed_supports();
    [[nodiscard]] double variance(const std::vector<Support>& supports,
                                  const std::vector<double>& by_force) const;

    PlateLayout layout_;
    ValueUncertainty known_;
    std::vector<Support> fixed_;  ///< of plates; empty where supports follow the feet
};

/// Part of a count's variance that does not average out although the reading carries noise of `noise_counts`
/// (standard deviation): 1/12 without noise, next to nothing from half a count on. In counts squared.
[[nodiscard]] double quantisation_left(double noise_counts);

}  // namespace footing
