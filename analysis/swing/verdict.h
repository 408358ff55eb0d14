#pragma once

#include <string>

namespace footing {

/// The lead share that the coach asks for, as fractions.
struct TargetBand {
    double low = 0.70;
    double high = 0.80;
};

/// What a share is against the band. `too_close`: the uncertainty does not allow a decision.
enum class Verdict { inside, below, above, too_close };

/// Decides with a stated probability (JCGM 106:2012, 8.3.1, guarded acceptance): with the share taken as
/// normal, N(value, u), the verdict is the one region (inside, below, above) that holds at least `sure` of
/// the probability, else too_close. `value` and `u` are fractions.
[[nodiscard]] Verdict judge(double value, double u, const TargetBand& band, double sure = 0.95);

[[nodiscard]] std::string verdict_name(Verdict verdict);  ///< inside, below, above, too_close

}  // namespace footing
