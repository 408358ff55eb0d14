#include "analysis/progress/weight_effect.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "analysis/statistics/distributions.h"

namespace footing {

namespace {

constexpr double ten_points = 0.10;
constexpr double confidence = 0.95;

struct PairedShot {
    double share = 0.0;
    double share_u = 0.0;
    double carry_m = 0.0;
};

double mean_of(const std::vector<PairedShot>& shots, double PairedShot::*value) {
    double sum = 0.0;
    for (const PairedShot& shot : shots) sum += shot.*value;
    return sum / static_cast<double>(shots.size());
}

CarryEffect carry_effect(WeightMeasure measure, std::span<const WeighedShot> shots) {
    std::map<std::size_t, std::vector<PairedShot>> by_cell;
    for (const WeighedShot& shot : shots) {
        const auto& share = measure == WeightMeasure::address ? shot.address : shot.lowest;
        if (share && shot.carry_m) by_cell[shot.cell].push_back({share->value, share->u, *shot.carry_m});
    }
    CarryEffect effect;
    effect.measure = measure;
    double share_share = 0.0;
    double share_carry = 0.0;
    double carry_carry = 0.0;
    double uncertain = 0.0;
    for (const auto& [cell, ones] : by_cell) {
        if (ones.size() < 2) continue;  // takes up its own mean and tells nothing
        ++effect.cells;
        effect.shots += ones.size();
        const double mean_share = mean_of(ones, &PairedShot::share);
        const double mean_carry_m = mean_of(ones, &PairedShot::carry_m);
        for (const PairedShot& one : ones) {
            share_share += (one.share - mean_share) * (one.share - mean_share);
            share_carry += (one.share - mean_share) * (one.carry_m - mean_carry_m);
            carry_carry += (one.carry_m - mean_carry_m) * (one.carry_m - mean_carry_m);
            uncertain += one.share_u * one.share_u;
        }
    }
    effect.degrees_of_freedom = static_cast<double>(effect.shots) - static_cast<double>(effect.cells) - 1.0;
    if (effect.degrees_of_freedom < fewest_degrees_of_freedom) return effect;
    // Half of what the weights differ by must be the golfer's, not the plates'; else the slope is diluted.
    const double spread = share_share / (effect.degrees_of_freedom + 1.0);
    effect.silence = Silence::alike;
    if (!(spread > 2.0 * uncertain / static_cast<double>(effect.shots)) || !(carry_carry > 0.0))
        return effect;
    effect.silence = Silence::none;
    const double slope = share_carry / share_share;
    const double left_over = std::max(0.0, carry_carry - slope * share_carry);
    const double u_slope = std::sqrt(left_over / effect.degrees_of_freedom / share_share);
    effect.per_ten_points_m = ten_points * slope;
    effect.half_width_m =
        ten_points * u_slope * student_t_quantile(0.5 + confidence / 2.0, effect.degrees_of_freedom);
    effect.p = u_slope > 0.0
                   ? 2.0 * student_t_probability(-std::abs(slope) / u_slope, effect.degrees_of_freedom)
                   : 0.0;
    return effect;
}

StrikeEffect strike_effect(std::span<const WeighedShot> shots) {
    StrikeEffect effect;
    TwoByTwo& counts = effect.counts;
    for (const WeighedShot& shot : shots) {
        if (!shot.strike || !shot.verdict || *shot.verdict == Verdict::too_close) continue;
        const bool is_good = *shot.strike == StrikeQuality::good;
        if (*shot.verdict == Verdict::inside) {
            ++(is_good ? counts.a : counts.b);
        } else {
            ++(is_good ? counts.c : counts.d);
        }
    }
    if (counts.total() < fewest_strikes) return effect;
    effect.test = fisher_test(counts, confidence);
    // Where even the most unlikely table could be chance, no table tells anything.
    effect.silence = effect.test.least_p < finding_below_p ? Silence::none : Silence::alike;
    return effect;
}

/// Holm's step-down: the smallest p against alpha over all questions, the next one against alpha over one
/// fewer, until one fails.
void judge_together(WeightEffects& effects) {
    struct Question {
        double p;
        Finding* finding;
    };
    std::vector<Question> questions;
    for (CarryEffect& effect : effects.carry) {
        if (effect.silence == Silence::none) questions.push_back({effect.p, &effect.finding});
    }
    if (effects.strike.silence == Silence::none)
        questions.push_back({effects.strike.test.p, &effects.strike.finding});
    std::sort(questions.begin(), questions.end(),
              [](const Question& a, const Question& b) { return a.p < b.p; });
    for (std::size_t i = 0; i < questions.size(); ++i) {
        if (questions[i].p > finding_below_p / static_cast<double>(questions.size() - i)) return;
        *questions[i].finding = Finding::more_than_chance;
    }
}

}  // namespace

WeightEffects weight_effects(std::span<const WeighedShot> shots) {
    WeightEffects effects;
    for (std::size_t i = 0; i < weight_measures.size(); ++i)
        effects.carry[i] = carry_effect(weight_measures[i], shots);
    effects.strike = strike_effect(shots);
    judge_together(effects);
    return effects;
}

std::string silence_name(Silence silence) {
    switch (silence) {
        case Silence::none:
            return "none";
        case Silence::too_few_shots:
            return "too_few_shots";
        case Silence::alike:
            return "alike";
    }
    return "";
}

std::string weight_measure_name(WeightMeasure measure) {
    return measure == WeightMeasure::address ? "address" : "lowest";
}

}  // namespace footing
