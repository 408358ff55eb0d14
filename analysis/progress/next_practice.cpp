#include "analysis/progress/next_practice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "acquisition/frame/count_words.h"

namespace footing {

namespace {

class Rules {
  public:
    Rules(const DistanceChart& chart, const WeightEffects& effects, std::span<const ProgressSeries> progress,
          std::vector<Advice> of_newest, DistanceUnit unit)
        : chart_(chart), effects_(effects), progress_(progress), unit_(unit), advice_(std::move(of_newest)) {}

    std::vector<Advice> ask() {
        const std::size_t most = std::max(most_advice, advice_.size());
        strike_and_band();
        carry_and_weight();
        got_worse();
        order_of_numbers();
        number_unknown();
        number_missing();
        number_old();
        if (advice_.size() > most) advice_.resize(most);
        return std::move(advice_);
    }

  private:
    void say(PracticeRule rule, std::string words) { advice_.push_back({rule, std::move(words)}); }

    void strike_and_band() {
        const StrikeEffect& strike = effects_.strike;
        if (strike.finding != Finding::more_than_chance || strike.test.odds_ratio < 1.0) return;
        const TwoByTwo& counts = strike.counts;
        say(PracticeRule::strike_and_band,
            fmt::format("Strike: with the weight inside the band {} met well, outside it {} of {}; so the "
                        "weight first, then the distance.",
                        part_words(counts.a, counts.a + counts.b, "shot was", "shots were"), counts.c,
                        counts.c + counts.d));
    }

    void carry_and_weight() {
        for (const CarryEffect& effect : effects_.carry) {
            if (effect.finding != Finding::more_than_chance) continue;
            say(PracticeRule::carry_and_weight,
                fmt::format("Distance: 10 % more of the weight {} goes with {} {} carry; practise the same "
                            "weight for every "
                            "shot.",
                            effect.measure == WeightMeasure::address ? "on the lead foot at address"
                                                                     : "on the lead foot where it is lowest",
                            distance_words(std::abs(effect.per_ten_points_m), unit_),
                            effect.per_ten_points_m < 0.0 ? "less" : "more"));
            return;
        }
    }

    void got_worse() {
        for (const ProgressSeries& series : progress_) {
            if (!series.change || series.change->verdict != ProgressVerdict::real) continue;
            const double rise = series.change->difference();
            const bool is_worse = (series.measure == ProgressMeasure::time_below && rise > 0.0) ||
                                  (series.measure == ProgressMeasure::rhythm && rise < 0.0) ||
                                  (series.measure == ProgressMeasure::carry_spread && rise > 0.0);
            if (!is_worse) continue;
            say(PracticeRule::got_worse,
                fmt::format("{} has become worse, from {} in the first lessons to {} in the last ones.",
                            capital(progress_measure_words(series.measure)),
                            progress_value_words(series.measure, series.change->first),
                            progress_value_words(series.measure, series.change->last)));
            return;
        }
    }

    void order_of_numbers() {
        for (const ChartWarning& warning : chart_.warnings) {
            if (warning.kind != WarningKind::longer_swing_not_longer &&
                warning.kind != WarningKind::lower_loft_not_longer)
                continue;
            if (!warning.difference_half_width_m ||
                !(std::abs(warning.difference_m) > *warning.difference_half_width_m))
                continue;
            say(PracticeRule::order_of_numbers,
                capital(warning_words(chart_, warning, unit_)) + "; practise the two side by side.");
            return;
        }
    }

    /// Of the numbers that are not known, the one that the fewest shots will make known.
    void number_unknown() {
        std::optional<std::size_t> nearest;
        for (const std::size_t cell : chart_.numbers()) {
            const auto needed = chart_.cells[cell].shots_needed;
            if (!needed || *needed == 0) continue;
            if (!nearest || *needed < *chart_.cells[*nearest].shots_needed) nearest = cell;
        }
        if (!nearest) return;
        const DistanceCell& cell = chart_.cells[*nearest];
        say(PracticeRule::number_unknown,
            fmt::format("Distance: {} is {} so far; about {} it known well enough.",
                        chart_.cell_name(*nearest), distance_words(*cell.mean_m, *cell.half_width_m, unit_),
                        *cell.shots_needed == 1 ? std::string("one more shot makes")
                                                : fmt::format("{} more shots make", *cell.shots_needed)));
    }

    /// Numbers that the bag could have and has not; silent while it has none at all.
    void number_missing() {
        const std::size_t usable = chart_.usable_cells().size();
        std::optional<std::size_t> first;
        std::size_t missing = 0;
        std::size_t all = 0;
        for (std::size_t cell = 0; cell < chart_.cells.size(); ++cell) {
            if (chart_.wedge_of(cell).bag == Bag::out) continue;
            ++all;
            if (chart_.cells[cell].is_number()) continue;
            ++missing;
            if (!first || chart_.cells[cell].collected() > chart_.cells[*first].collected()) first = cell;
        }
        if (usable == 0 || missing == 0) return;
        say(PracticeRule::number_missing,
            fmt::format("Distance: {} of the bag {} fewer than {} shots; {} {} of {}.",
                        missing < all ? fmt::format("{} of the {} numbers", missing, all)
                        : all == 1    ? std::string("the one number")
                                      : fmt::format("all {} numbers", all),
                        missing == 1 ? "has" : "have", shots_for_a_number,
                        missing == 1 ? "hit" : "begin with",
                        chart_.cells[*first].collected() > 0
                            ? count_words(shots_for_a_number - chart_.cells[*first].collected(), "more shot",
                                          "more shots")
                            : count_words(shots_for_a_number, "shot", "shots"),
                        chart_.cell_name(*first)));
    }

    void number_old() {
        for (const ChartWarning& warning : chart_.warnings) {
            if (warning.kind != WarningKind::old) continue;
            say(PracticeRule::number_old,
                capital(warning_words(chart_, warning, unit_)) + "; hit some again before trusting it.");
            return;
        }
    }

    static std::string capital(std::string words) {
        if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
            words.front() = static_cast<char>(words.front() - 'a' + 'A');
        return words;
    }

    const DistanceChart& chart_;
    const WeightEffects& effects_;
    std::span<const ProgressSeries> progress_;
    DistanceUnit unit_;
    std::vector<Advice> advice_;
};

}  // namespace

std::vector<Advice> next_practice(const DistanceChart& chart, const WeightEffects& effects,
                                  std::span<const ProgressSeries> progress, std::vector<Advice> of_newest,
                                  DistanceUnit unit) {
    return Rules(chart, effects, progress, std::move(of_newest), unit).ask();
}

std::string practice_rule_name(PracticeRule rule) {
    switch (rule) {
        case PracticeRule::weight_outside:
            return "weight_outside";
        case PracticeRule::weight_at_impact:
            return "weight_at_impact";
        case PracticeRule::onto_trail_foot:
            return "onto_trail_foot";
        case PracticeRule::uneven_rhythm:
            return "uneven_rhythm";
        case PracticeRule::finish_not_held:
            return "finish_not_held";
        case PracticeRule::weight_at_finish:
            return "weight_at_finish";
        case PracticeRule::strike_and_band:
            return "strike_and_band";
        case PracticeRule::carry_and_weight:
            return "carry_and_weight";
        case PracticeRule::got_worse:
            return "got_worse";
        case PracticeRule::order_of_numbers:
            return "order_of_numbers";
        case PracticeRule::number_unknown:
            return "number_unknown";
        case PracticeRule::number_missing:
            return "number_missing";
        case PracticeRule::number_old:
            return "number_old";
    }
    return "";
}

}  // namespace footing
