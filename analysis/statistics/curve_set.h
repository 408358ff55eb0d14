#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// Curves on one axis: shape [curves][points], all known, all of one length.
using Curves = std::vector<std::vector<double>>;

/// Mean, spread and bands of a set of curves (docs/formulas.md, F45).
struct CurveSet {
    std::vector<double> mean;
    std::vector<double> sd;  ///< with n - 1
    double band_factor =
        0.0;  ///< the simultaneous 95 % confidence band of the mean is mean +/- factor sd / sqrt n
    double next_factor =
        0.0;  ///< the next curve lies, as a whole, within mean +/- factor sd in 95 of 100 cases
    double roughness =
        0.0;  ///< length of the set's course in units of its own spread (first Lipschitz-Killing curvature)
};

/// Three curves or more, three points or more; nothing otherwise, or where the curves are all one. `least_sd`
/// is what measuring alone adds to a point; a smaller spread than it is not believed.
[[nodiscard]] std::optional<CurveSet> curve_set(const Curves& curves, double least_sd,
                                                double confidence = 0.95);

/// The level u that a smooth Student-t process of `degrees` of freedom and this roughness exceeds somewhere,
/// up or down, with probability 1 - confidence, by the Gaussian kinematic formula: 2 [P(T > u) + roughness /
/// (2 pi) (1 + u^2 / degrees)^(-(degrees - 1) / 2)] (Telschow & Schwartzman 2022, J. Stat. Plan. Inference
/// 216:70; Taylor & Worsley 2007, J. Am. Stat. Assoc. 102:913).
[[nodiscard]] double simultaneous_t_level(double degrees, double roughness, double confidence);
/// The probability above, at most 1.
[[nodiscard]] double simultaneous_t_tail(double level, double degrees, double roughness);

/// One curve against all others.
struct OddCurve {
    std::size_t curve = 0;  ///< its place in the set
    double distance =
        0.0;  ///< largest distance from the others' mean, in units of their spread for one more curve
    std::size_t point = 0;  ///< where
    double p = 1.0;         ///< chance of so odd a curve in a set of so many alike, at most 1
};
inline constexpr std::size_t fewest_curves_to_judge = 5;
/// Of fewer the true mean, and the next curve, may lie nearly anywhere; a tint over the whole picture says
/// less than none.
inline constexpr std::size_t fewest_curves_to_tint = fewest_curves_to_judge;
/// Every curve against the mean and spread of the others; the tail of simultaneous_t_tail() times the number
/// of curves (Bonferroni). Point by point it is the test of Grubbs 1969 (Technometrics 11:1). Empty for fewer
/// than fewest_curves_to_judge curves.
[[nodiscard]] std::vector<OddCurve> odd_curves(const Curves& curves, double least_sd);

}  // namespace footing
