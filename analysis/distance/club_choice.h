#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "analysis/distance/distance_chart.h"

namespace footing {

/// One cell as an answer to "how far is the flag": what its shots so far say about the next one
/// (docs/formulas.md, F53). Carry only; how far a ball rolls is not known.
struct ClubOption {
    std::size_t cell = 0;
    double mean_miss_m = 0.0;          ///< mean less the distance asked for; negative is short
    std::size_t rank_by_nearness = 0;  ///< 1 is the mean nearest to the distance
    std::optional<double>
        probability_within;  ///< of the next carry lying within the stated distance; from two shots on
    std::optional<double> miss_low_m;   ///< of ten shots, one is expected to miss by less than this …
    std::optional<double> miss_high_m;  ///< … and one by more than this (negative is short)
};

enum class Coverage { covered, not_covered };

struct ClubChoice {
    double distance_m = 0.0;
    double within_m = 0.0;
    /// Most probable first, those under 1 % by nearness; cells with one shot follow, nearest first.
    std::vector<ClubOption> options;
    Coverage coverage =
        Coverage::not_covered;           ///< covered: the mean of a cell lies within the stated distance
    std::optional<std::size_t> advised;  ///< index into options; nothing where the distance is not covered
    std::optional<std::size_t> shorter;  ///< the cell with the nearest mean below the distance
    std::optional<std::size_t> longer;   ///< the same above
};

/// Ranks the cells in the bag for a distance. The next carry is taken as mean + SD sqrt(1 + 1/n) t_{n-1}
/// (predictive distribution of a normal sample; Hahn & Meeker, Statistical Intervals).
[[nodiscard]] ClubChoice choose_club(const DistanceChart& chart, double distance_m, double within_m);

/// The choice among the numbers (DistanceChart::numbers) at every multiple of `step_m` from the shortest to
/// the longest, both rounded to the step; empty when there is none.
[[nodiscard]] std::vector<ClubChoice> distance_card(const DistanceChart& chart, double step_m,
                                                    double within_m);

}  // namespace footing
