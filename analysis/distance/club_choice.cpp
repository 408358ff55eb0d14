#include "analysis/distance/club_choice.h"

#include <algorithm>
#include <cmath>

#include "analysis/statistics/distributions.h"

namespace footing {

namespace {

constexpr double tail = 0.10;  // of the miss to expect on either side

void predict(const DistanceCell& cell, double distance_m, double within_m, ClubOption& option) {
    if (!cell.fair_sd_m) return;
    const double n = static_cast<double>(cell.kept);
    const double scale_m = *cell.fair_sd_m * std::sqrt(1.0 + 1.0 / n);
    const double freedom = cell.degrees_of_freedom;
    const double mean_m = *cell.mean_m;
    option.probability_within = student_t_probability((distance_m + within_m - mean_m) / scale_m, freedom) -
                                student_t_probability((distance_m - within_m - mean_m) / scale_m, freedom);
    const double reach_m = student_t_quantile(1.0 - tail, freedom) * scale_m;
    option.miss_low_m = option.mean_miss_m - reach_m;
    option.miss_high_m = option.mean_miss_m + reach_m;
}

/// What clubs are ranked by. Below one in a hundred the chances are those of the far ends of the
/// distribution, which the shots do not tell: there they count alike, and the nearest stands first.
double chance(const ClubOption& option) {
    constexpr double least_told = 0.01;
    if (!option.probability_within) return -1.0;
    return *option.probability_within < least_told ? 0.0 : *option.probability_within;
}

/// The most probable club where one that covers the distance has a chance to compare; else the nearest that
/// covers it.
std::optional<std::size_t> advice(const ClubChoice& choice) {
    std::optional<std::size_t> nearest;
    for (std::size_t i = 0; i < choice.options.size(); ++i) {
        const ClubOption& option = choice.options[i];
        if (std::abs(option.mean_miss_m) > choice.within_m) continue;
        if (option.probability_within) return 0;
        if (!nearest || option.rank_by_nearness < choice.options[*nearest].rank_by_nearness) nearest = i;
    }
    return nearest;
}

}  // namespace

ClubChoice choose_club(const DistanceChart& chart, double distance_m, double within_m) {
    ClubChoice choice;
    choice.distance_m = distance_m;
    choice.within_m = within_m;
    for (const std::size_t cell : chart.usable_cells()) {  // shortest first
        ClubOption option;
        option.cell = cell;
        option.mean_miss_m = *chart.cells[cell].mean_m - distance_m;
        predict(chart.cells[cell], distance_m, within_m, option);
        if (std::abs(option.mean_miss_m) <= within_m) choice.coverage = Coverage::covered;
        if (option.mean_miss_m <= 0.0) choice.shorter = cell;
        if (option.mean_miss_m >= 0.0 && !choice.longer) choice.longer = cell;
        choice.options.push_back(option);
    }
    const auto nearer = [](const ClubOption& a, const ClubOption& b) {
        return std::abs(a.mean_miss_m) < std::abs(b.mean_miss_m);
    };
    std::stable_sort(choice.options.begin(), choice.options.end(), nearer);
    for (std::size_t i = 0; i < choice.options.size(); ++i) choice.options[i].rank_by_nearness = i + 1;
    std::stable_sort(choice.options.begin(), choice.options.end(),
                     [](const ClubOption& a, const ClubOption& b) { return chance(a) > chance(b); });
    choice.advised = advice(choice);
    return choice;
}

std::vector<ClubChoice> distance_card(const DistanceChart& all, double step_m, double within_m) {
    const std::vector<std::size_t> cells = all.numbers();
    if (cells.empty()) return {};
    DistanceChart chart = all;
    for (DistanceCell& cell : chart.cells) {
        if (!cell.is_number()) cell.mean_m.reset();
    }
    const auto first = std::lround(*chart.cells[cells.front()].mean_m / step_m);
    const auto last = std::lround(*chart.cells[cells.back()].mean_m / step_m);
    std::vector<ClubChoice> card;
    for (auto step = first; step <= last; ++step) {
        card.push_back(choose_club(chart, static_cast<double>(step) * step_m, within_m));
    }
    return card;
}

}  // namespace footing
