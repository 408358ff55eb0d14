#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "analysis/distance/distance_chart.h"
#include "analysis/progress/progress.h"
#include "analysis/progress/weight_effect.h"

namespace footing {

/// Weight at address in the newest lesson that tells enough, against the band.
struct BandTally {
    std::size_t inside = 0;
    std::size_t below = 0;
    std::size_t above = 0;

    [[nodiscard]] std::size_t clear() const { return inside + below + above; }
};

/// The rules, in the order in which they are asked (docs/lesson_book.md).
enum class PracticeRule {
    weight_outside,    ///< the newest lesson was outside the band more often than not, beyond chance
    strike_and_band,   ///< strikes are worse outside the band, beyond chance
    carry_and_weight,  ///< the carry goes with the weight, beyond chance
    got_worse,         ///< a measure changed for the worse, beyond chance
    order_of_numbers,  ///< a longer swing, or less loft, carries less far, beyond chance
    number_unknown,    ///< a number is not known as well as the coach asks
    number_missing,    ///< a wedge in the bag has a length without a number
    number_old,        ///< a number rests on old shots
};

struct Advice {
    PracticeRule rule = PracticeRule::number_unknown;
    std::string words;
};

inline constexpr std::size_t most_advice = 3;

/// What to practise next: the first three rules that hold, a sentence each; empty where the numbers bear no
/// advice. Nothing is said that they do not bear.
[[nodiscard]] std::vector<Advice> next_practice(const DistanceChart& chart, const WeightEffects& effects,
                                                std::span<const ProgressSeries> progress,
                                                const BandTally& newest, DistanceUnit unit);

[[nodiscard]] std::string practice_rule_name(PracticeRule rule);  ///< weight_outside, …

}  // namespace footing
