#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analysis/distance/carry.h"
#include "analysis/statistics/fisher_test.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Ball first is good; ground first and thin are poor.
enum class StrikeQuality { good, poor };

/// A weight with its standard uncertainty, as fractions.
struct WeighedShare {
    double value = 0.0;
    double u = 0.0;
};

/// A shot with what is known of it. What the coach set aside does not belong here.
struct WeighedShot {
    std::size_t cell = 0;           ///< of the distance chart
    std::optional<double> carry_m;  ///< where the distance chart keeps it
    std::optional<WeighedShare> address;
    std::optional<WeighedShare> lowest;
    std::optional<Verdict> verdict;  ///< of the weight at address against the band of its length
    std::optional<StrikeQuality> strike;
};

enum class WeightMeasure { address, lowest };
inline constexpr std::array<WeightMeasure, 2> weight_measures{WeightMeasure::address, WeightMeasure::lowest};

/// Why nothing is said.
enum class Silence {
    none,
    too_few_shots,  ///< fewer than the rule asks for
    alike,          ///< the weights differ no more than they are uncertain; or hardly any strike is another
};

/// Whether chance alone would do it, with all questions asked at once taken together.
enum class Finding { more_than_chance, chance };

/// How the carry goes with the weight, within the cells of the chart.
struct CarryEffect {
    WeightMeasure measure = WeightMeasure::address;
    Silence silence = Silence::too_few_shots;
    std::size_t shots = 0;
    std::size_t cells = 0;
    double per_ten_points_m = 0.0;  ///< carry that goes with 10 points more on the lead foot
    double half_width_m = 0.0;      ///< of its 95 % interval
    double degrees_of_freedom = 0.0;
    double p = 1.0;
    Finding finding = Finding::chance;
};

/// Good and poor strikes inside and outside the band: a inside and good, b inside and poor, c outside and
/// good, d outside and poor.
struct StrikeEffect {
    Silence silence = Silence::too_few_shots;
    TwoByTwo counts;
    FisherTest test;
    Finding finding = Finding::chance;
};

struct WeightEffects {
    std::array<CarryEffect, 2> carry;  ///< in the order of weight_measures
    StrikeEffect strike;
};

/// Rules of silence: below these nothing is said (docs/formulas.md, F56 and F57).
inline constexpr double fewest_degrees_of_freedom = 10.0;  ///< of a slope: shots less cells less one
inline constexpr std::size_t fewest_strikes = 10;          ///< clearly inside or outside the band
inline constexpr double finding_below_p = 0.05;

/// Does the weight explain the miss? For the carry: least squares of the carry on the weight with a mean of
/// its own for every cell (analysis of covariance), its slope by Student's t. Carry less the cell's mean
/// alone is not enough: where cells differ in weight as well, the slope would come out too small. For the
/// strike: Fisher's exact test. The questions that are not silent are judged together (Holm 1979, Scand. J.
/// Stat. 6:65). What causes what, none of it tells.
[[nodiscard]] WeightEffects weight_effects(std::span<const WeighedShot> shots);

/// A sentence for each question, silence included.
[[nodiscard]] std::vector<std::string> weight_effect_words(const WeightEffects& effects, DistanceUnit unit);

[[nodiscard]] std::string silence_name(Silence silence);               ///< none, too_few_shots, alike
[[nodiscard]] std::string weight_measure_name(WeightMeasure measure);  ///< address, lowest

}  // namespace footing
