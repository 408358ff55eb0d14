#include "analysis/progress/progress.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "analysis/statistics/distributions.h"
#include "analysis/statistics/repeatability.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

std::optional<double> value_of(const ProgressShot& shot, ProgressMeasure measure) {
    switch (measure) {
        case ProgressMeasure::address_share:
            return shot.address_share;
        case ProgressMeasure::time_below:
            return shot.below_floor_s;
        case ProgressMeasure::tempo:
            return shot.tempo_ratio;
        case ProgressMeasure::rhythm:
            return shot.rhythm_percent;
        case ProgressMeasure::carry_spread:
            break;
    }
    return std::nullopt;
}

/// The SD of carries over the mean of their cell, pooled over the cells of one lesson; so that lessons with
/// other clubs can be compared.
std::optional<ProgressPoint> spread_of(std::size_t lesson, std::span<const ProgressShot> shots) {
    std::map<std::size_t, std::vector<double>> by_cell;
    for (const ProgressShot& shot : shots) {
        if (shot.lesson == lesson && shot.cell) by_cell[*shot.cell].push_back(shot.carry_m);
    }
    ProgressPoint point{lesson, 0, 0.0};
    double squares = 0.0;
    double freedom = 0.0;
    for (const auto& [cell, carries_m] : by_cell) {
        const double middle = mean(carries_m);
        if (carries_m.size() < 2 || !(middle > 0.0)) continue;
        point.shots += carries_m.size();
        freedom += static_cast<double>(carries_m.size()) - 1.0;
        for (const double carry_m : carries_m) squares += std::pow(carry_m / middle - 1.0, 2);
    }
    if (freedom < fewest_degrees_of_a_spread) return std::nullopt;
    point.value = std::sqrt(squares / freedom);
    return point;
}

std::optional<ProgressPoint> mean_of(std::size_t lesson, std::span<const ProgressShot> shots,
                                     ProgressMeasure measure) {
    std::vector<double> values;
    for (const ProgressShot& shot : shots) {
        if (shot.lesson != lesson) continue;
        if (const auto value = value_of(shot, measure)) values.push_back(*value);
    }
    if (!tells_of_lesson(values.size())) return std::nullopt;
    return ProgressPoint{lesson, values.size(), mean(values)};
}

double mean_value(std::span<const ProgressPoint> points) {
    double sum = 0.0;
    for (const ProgressPoint& point : points) sum += point.value;
    return sum / static_cast<double>(points.size());
}

}  // namespace

std::optional<std::size_t> ProgressSeries::first_beyond() const {
    if (!chart || !chart->first_beyond) return std::nullopt;
    return *chart->first_beyond + baseline;
}

ProgressSeries progress_of_values(ProgressMeasure measure, std::vector<ProgressPoint> points) {
    ProgressSeries series;
    series.measure = measure;
    series.points = std::move(points);
    std::vector<double> values;
    for (const ProgressPoint& point : series.points) values.push_back(point.value);
    const std::size_t count = values.size();
    if (count < fewest_lessons) return series;
    series.typical_error = typical_error_in_a_row(values);
    if (!series.typical_error) return series;
    // A mean square of n - 1 successive differences varies like one of so many degrees of freedom (von
    // Neumann et al. 1941, Ann. Math. Stat. 12:153).
    const double n = static_cast<double>(count);
    series.degrees_of_freedom = 2.0 * (n - 1.0) * (n - 1.0) / (3.0 * n - 4.0);

    ProgressChange change;
    change.lessons_each = std::min(most_lessons_each, count / 2);
    const std::span<const ProgressPoint> all(series.points);
    change.first = mean_value(all.first(change.lessons_each));
    change.last = mean_value(all.last(change.lessons_each));
    change.detectable = student_t_quantile(0.975, series.degrees_of_freedom) * *series.typical_error *
                        std::sqrt(2.0 / static_cast<double>(change.lessons_each));
    if (std::abs(change.difference()) > change.detectable) change.verdict = ProgressVerdict::real;
    series.change = change;
    if (count < fewest_lessons_for_chart) return series;

    constexpr double weight = 0.3;
    constexpr double three_sigma = 3.0;
    series.target = mean_value(all.first(baseline));
    // Three standard deviations, told from so few lessons, are as many of Student's t.
    const double factor =
        student_t_quantile(1.0 - student_t_probability(-three_sigma, 1e7), series.degrees_of_freedom);
    series.chart = moving_average_chart(std::span<const double>(values).subspan(baseline), series.target,
                                        *series.typical_error, weight, factor,
                                        *series.typical_error / std::sqrt(static_cast<double>(baseline)));
    return series;
}

std::array<ProgressSeries, 5> progress_of_lessons(std::span<const ProgressShot> shots) {
    std::size_t lessons = 0;
    for (const ProgressShot& shot : shots) lessons = std::max(lessons, shot.lesson + 1);
    // By lesson once: a student of years has thousands of shots.
    std::vector<std::vector<ProgressShot>> by_lesson(lessons);
    for (const ProgressShot& shot : shots) by_lesson[shot.lesson].push_back(shot);
    std::array<ProgressSeries, 5> all;
    for (std::size_t i = 0; i < progress_measures.size(); ++i) {
        const ProgressMeasure measure = progress_measures[i];
        std::vector<ProgressPoint> points;
        for (std::size_t lesson = 0; lesson < lessons; ++lesson) {
            const auto point = measure == ProgressMeasure::carry_spread
                                   ? spread_of(lesson, by_lesson[lesson])
                                   : mean_of(lesson, by_lesson[lesson], measure);
            if (point) points.push_back(*point);
        }
        all[i] = progress_of_values(measure, std::move(points));
    }
    return all;
}

}  // namespace footing
