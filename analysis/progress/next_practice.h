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

/// The rules, in the order in which they are asked (docs/lesson_book.md).
enum class PracticeRule {
    weight_outside,    ///< the newest lesson asks for a change (lesson_findings.h): weight at address …
    weight_at_impact,  ///< … at impact …
    onto_trail_foot,   ///< … on the way …
    uneven_rhythm,     ///< … the tempo …
    finish_not_held,   ///< … the finish did not come to rest …
    weight_at_finish,  ///< … or was not on the lead foot
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

/// What to practise next: all that the newest lesson asks to change (`of_newest`, change_words.h), and of the
/// other rules the first that hold, up to three sentences; empty where the numbers bear no advice. Nothing is
/// said that they do not bear.
[[nodiscard]] std::vector<Advice> next_practice(const DistanceChart& chart, const WeightEffects& effects,
                                                std::span<const ProgressSeries> progress,
                                                std::vector<Advice> of_newest, DistanceUnit unit);

[[nodiscard]] std::string practice_rule_name(PracticeRule rule);  ///< weight_outside, …

}  // namespace footing
