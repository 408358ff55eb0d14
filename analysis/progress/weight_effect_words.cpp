#include <fmt/format.h>

#include <cmath>

#include "acquisition/frame/count_words.h"
#include "analysis/progress/weight_effect.h"

namespace footing {

namespace {

std::string more_or_less(double metres, DistanceUnit unit) {
    return distance_words(std::abs(metres), unit, 1) + (metres < 0.0 ? " less" : " more");
}

std::string p_words(double p) {
    return p < 0.001 ? "p below 0.001" : fmt::format("p {:.3f}", p);
}

std::string finding_words(Finding finding) {
    return finding == Finding::more_than_chance ? "more than chance" : "chance alone may do that";
}

std::string shots_with(std::size_t shots, const std::string& what) {
    return shots == 0 ? "no shot has " + what : count_words(shots, "shot has ", "shots have ") + what;
}

/// Each club and length has a mean of its own, which one shot of it goes into.
std::string shots_needed_words(std::size_t cells) {
    const std::size_t spare = static_cast<std::size_t>(fewest_degrees_of_freedom) + 1;
    if (cells <= 1) return fmt::format("{} with one club at one length", spare + 1);
    return fmt::format("{} with these {} clubs and lengths", spare + cells, cells);
}

std::string carry_words(const CarryEffect& effect, DistanceUnit unit) {
    const bool is_address = effect.measure == WeightMeasure::address;
    const std::string weight = is_address ? "weight at address" : "lowest weight";
    switch (effect.silence) {
        case Silence::too_few_shots:
            return fmt::format("Carry and {}: nothing can be said yet; {} so far, and {} are needed.", weight,
                               shots_with(effect.shots, "both"), shots_needed_words(effect.cells));
        case Silence::alike:
            return fmt::format("Carry and {}: the weights of {} shots are too much alike to say anything.",
                               weight, effect.shots);
        case Silence::none:
            break;
    }
    const std::string range = fmt::format("95 % interval {} to {}",
                                          more_or_less(effect.per_ten_points_m - effect.half_width_m, unit),
                                          more_or_less(effect.per_ten_points_m + effect.half_width_m, unit));
    return fmt::format(
        "Carry and {}: 10 % more of the weight on the lead foot goes with {} carry ({}, {}, {} shots): {}.",
        weight, more_or_less(effect.per_ten_points_m, unit), range, p_words(effect.p), effect.shots,
        finding_words(effect.finding));
}

std::string odds_words(double odds) {
    return std::isinf(odds) ? "no limit" : fmt::format("{:.1f}", odds);
}

std::string strike_effect_words(const StrikeEffect& effect) {
    const TwoByTwo& counts = effect.counts;
    switch (effect.silence) {
        case Silence::too_few_shots:
            return fmt::format(
                "Strike and band: nothing can be said yet; {} so far whose weight was clearly inside or "
                "outside the band, and {} are needed.",
                shots_with(counts.total(), "a strike"), fewest_strikes);
        case Silence::alike:
            return fmt::format(
                "Strike and band: of {} shots too few were outside the band, or too few were "
                "met badly, to say anything.",
                counts.total());
        case Silence::none:
            break;
    }
    return fmt::format(
        "Strike and band: good {} of {} inside the band, {} of {} outside (odds ratio {}, 95 % "
        "interval {} to {}, Fisher's exact test, {}): {}.",
        counts.a, counts.a + counts.b, counts.c, counts.c + counts.d, odds_words(effect.test.odds_ratio),
        odds_words(effect.test.low), odds_words(effect.test.high), p_words(effect.test.p),
        finding_words(effect.finding));
}

}  // namespace

std::vector<std::string> weight_effect_words(const WeightEffects& effects, DistanceUnit unit) {
    std::vector<std::string> words;
    for (const CarryEffect& effect : effects.carry) words.push_back(carry_words(effect, unit));
    words.push_back(strike_effect_words(effects.strike));
    return words;
}

}  // namespace footing
