#pragma once

#include <string>

namespace footing {

/// The lead share that the coach asks for, as fractions.
struct TargetBand {
    double low = 0.70;
    double high = 0.80;
};

/// How sure a verdict must be unless the coach sets it otherwise: one-sided coverage probability.
inline constexpr double usual_certainty = 0.95;

/// What a share is against the band. `too_close`: the uncertainty does not allow a decision.
enum class Verdict { inside, below, above, too_close };

/// Decides with a stated probability (JCGM 106:2012, 8.3.2 and 8.3.3, guarded acceptance and rejection;
/// docs/formulas.md, G8): with the share taken as normal, N(value, u), the verdict is the one region (inside,
/// below, above) that holds at least `sure` of the probability, else too_close. `value` and `u` are
/// fractions, `sure` is above 0.5.
[[nodiscard]] Verdict judge(double value, double u, const TargetBand& band, double sure = usual_certainty);

/// Whether a share is surely not under a limit, however far above it: the same rule with one edge.
[[nodiscard]] bool surely_not_under(double value, double u, double limit, double sure = usual_certainty);

[[nodiscard]] std::string verdict_name(Verdict verdict);  ///< inside, below, above, too_close

}  // namespace footing
