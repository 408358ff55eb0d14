#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace footing {

/// ICC(1,1) of groups of unequal size, one-way random (Shrout & Fleiss 1979 with the usual n0;
/// docs/formulas.md, F47). Nothing for fewer than two groups or no repeats.
[[nodiscard]] std::optional<double> intraclass_correlation_unequal(
    const std::vector<std::vector<double>>& groups);

/// Typical error from one value to the next in a row, so that a slow drift does not count (for two trials
/// Hopkins 2000, Sports Med. 30:1): the root mean square of
/// successive differences over sqrt 2 (von Neumann et al. 1941, Ann. Math. Stat. 12:153 [M]). Three values or
/// more.
[[nodiscard]] std::optional<double> typical_error_in_a_row(std::span<const double> values);

/// Minimal detectable change of one value against another, 95 %: 1.96 sqrt 2 times the typical error (Weir
/// 2005, J. Strength Cond. Res. 19:231).
[[nodiscard]] double minimal_detectable_change(double typical_error);

/// Two ways to measure the same things (Bland & Altman 1986, Lancet i:307).
struct LimitsOfAgreement {
    std::size_t pairs = 0;
    double bias = 0.0;  ///< mean of first less second
    double sd = 0.0;    ///< of the differences
    double low = 0.0;   ///< limits of agreement, bias -/+ factor * sd
    double high = 0.0;
    double bias_se = 0.0;
    double limit_se = 0.0;  ///< of each limit
};
/// `factor`: 1.96, or 2 as in the paper. Both spans of one length, two or more.
[[nodiscard]] std::optional<LimitsOfAgreement> agreement(std::span<const double> first,
                                                         std::span<const double> second,
                                                         double factor = 1.96);

/// The difference of the means of two sets, and whether it is real (docs/formulas.md, F47).
enum class ChangeVerdict { real, noise };
struct Change {
    double difference = 0.0;  ///< second less first
    double detectable = 0.0;  ///< minimal detectable change of the means, 95 %
    double degrees_of_freedom = 0.0;
    ChangeVerdict verdict = ChangeVerdict::noise;
};
/// Welch's test turned into a limit (Welch 1947, Biometrika 34:28), widened by what each set's common error
/// may be: t_{0.975, nu} sqrt(s1^2/n1 + s2^2/n2 + u1^2 + u2^2). `common_u`: standard uncertainty that all
/// values of a set share (zero, sensitivity). Two values or more in each.
[[nodiscard]] std::optional<Change> change_of_means(std::span<const double> first,
                                                    std::span<const double> second, double first_common_u,
                                                    double second_common_u);

}  // namespace footing
