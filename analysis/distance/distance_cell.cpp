#include "analysis/distance/distance_cell.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/outlier_test.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

double upper_t(double confidence, double degrees_of_freedom) {
    return student_t_quantile(0.5 + confidence / 2.0, degrees_of_freedom);
}

/// Spread of the shots kept with those that the test set aside drawn to the edge of where 95 of 100 next
/// shots are to be expected (after Tukey & McLaughlin 1963, Sankhya A 25:331, who draw them to the nearest
/// one kept, which with few shots is too near; docs/formulas.md, F51). `kept_m` holds two or more.
double fair_sd(std::vector<double> kept_m, const std::vector<double>& set_aside_m) {
    const double kept = static_cast<double>(kept_m.size());
    const double middle = mean(kept_m);
    const double edge = upper_t(0.95, kept - 1.0) * standard_deviation(kept_m) * std::sqrt(1.0 + 1.0 / kept);
    for (const double carry_m : set_aside_m)
        kept_m.push_back(std::clamp(carry_m, middle - edge, middle + edge));
    const double all = static_cast<double>(kept_m.size());
    return standard_deviation(kept_m) * std::sqrt((all - 1.0) / (kept - 1.0));
}

void set_outliers_aside(DistanceCell& cell, const DistanceOptions& options) {
    while (options.outlier_alpha > 0.0) {
        std::vector<double> carries_m;
        std::vector<std::size_t> places;
        for (std::size_t i = 0; i < cell.shots.size(); ++i) {
            if (cell.shots[i].standing != Standing::kept) continue;
            carries_m.push_back(cell.shots[i].carry.carry_m);
            places.push_back(i);
        }
        if (carries_m.size() < fewest_for_outlier_test) return;
        const auto test = grubbs_test(carries_m, options.outlier_alpha);
        if (!test || !test->is_outlier()) return;
        JudgedCarry& shot = cell.shots[places[test->index]];
        const std::string finding =
            fmt::format("{} from the other shots (Grubbs' test: G {:.2f}, limit {:.2f} for {} shots)",
                        shot.carry.carry_m < mean(carries_m) ? "too short to come" : "too long to come",
                        test->g, test->critical, carries_m.size());
        if (shot.carry.coach == CoachSays::keep) {
            shot.reason = "kept by the coach, though " + finding;
            return;
        }
        shot.standing = Standing::set_aside;
        shot.reason = finding;
    }
}

}  // namespace

DistanceOptions usual_limits(DistanceUnit unit) {
    DistanceOptions limits;
    limits.known_within_m = 3.0 * metres_per(unit);
    limits.widest_gap_m = 15.0 * metres_per(unit);
    return limits;
}

std::size_t DistanceCell::collected() const {
    return 2 * kept > shots_for_a_number ? shots.size() : std::min(shots.size(), kept);
}

std::string collected_words(const DistanceCell& cell) {
    return fmt::format("{} of {} shots", cell.collected(), shots_for_a_number);
}

std::string known_words(const DistanceCell& cell, DistanceUnit unit) {
    if (cell.shots.empty()) return "no shot yet";
    if (!cell.mean_m) return "none counts";
    if (!cell.is_number()) return collected_words(cell);
    return distance_words(*cell.mean_m, *cell.half_width_m, unit);
}

std::size_t shots_to_know(double sd, double within, double confidence) {
    const auto is_known = [&](std::size_t n) {
        return upper_t(confidence, static_cast<double>(n - 1)) * sd / std::sqrt(static_cast<double>(n)) <=
               within;
    };
    std::size_t enough = 2;
    while (!is_known(enough)) enough *= 2;
    std::size_t too_few = enough / 2;
    if (enough == 2) return 2;
    while (enough - too_few > 1) {
        const std::size_t middle = too_few + (enough - too_few) / 2;
        (is_known(middle) ? enough : too_few) = middle;
    }
    return enough;
}

DistanceCell judge_cell(std::vector<Carry> shots, const DistanceOptions& options) {
    DistanceCell cell;
    for (Carry& carry : shots) {
        JudgedCarry judged;
        if (carry.coach == CoachSays::set_aside) {
            judged.standing = Standing::set_aside;
            judged.reason = carry.reason.empty() ? "set aside by the coach" : "the coach: " + carry.reason;
        }
        judged.carry = std::move(carry);
        cell.shots.push_back(std::move(judged));
    }
    set_outliers_aside(cell, options);

    std::vector<double> carries_m;
    std::vector<double> set_aside_m;  // by the test
    for (const JudgedCarry& shot : cell.shots) {
        if (shot.standing != Standing::kept) {
            if (shot.carry.coach != CoachSays::set_aside) set_aside_m.push_back(shot.carry.carry_m);
            continue;
        }
        carries_m.push_back(shot.carry.carry_m);
        cell.newest_day = std::max(cell.newest_day.value_or(shot.carry.day), shot.carry.day);
    }
    cell.kept = carries_m.size();
    if (cell.kept == 0) return cell;
    cell.mean_m = mean(carries_m);
    if (cell.kept < 2) return cell;
    cell.sd_m = standard_deviation(carries_m);
    cell.fair_sd_m = std::max(fair_sd(carries_m, set_aside_m), carry_reading_sd_m);
    cell.degrees_of_freedom =
        std::max(1.0, static_cast<double>(cell.kept) - 1.0 - static_cast<double>(set_aside_m.size()));
    cell.half_width_m = upper_t(options.confidence, cell.degrees_of_freedom) * *cell.fair_sd_m /
                        std::sqrt(static_cast<double>(cell.kept));
    const std::size_t enough = shots_to_know(*cell.fair_sd_m, options.known_within_m, options.confidence);
    cell.shots_needed = enough > cell.kept ? enough - cell.kept : 0;
    // A shot set aside makes the interval wider than so many sound shots would; then at least one more is
    // needed.
    if (*cell.shots_needed == 0 && *cell.half_width_m > options.known_within_m) cell.shots_needed = 1;
    return cell;
}

}  // namespace footing
