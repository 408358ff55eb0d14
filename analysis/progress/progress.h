#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "analysis/distance/carry.h"
#include "analysis/statistics/moving_average_chart.h"

namespace footing {

enum class ProgressMeasure {
    address_share,  ///< lead share at address, as a fraction
    time_below,     ///< seconds below the floor
    tempo,          ///< backswing over downswing
    rhythm,         ///< how a shot matches the practice swings before it, %
    carry_spread,   ///< SD of the carry as a fraction of it
};
inline constexpr std::array<ProgressMeasure, 5> progress_measures{
    ProgressMeasure::address_share, ProgressMeasure::time_below, ProgressMeasure::tempo,
    ProgressMeasure::rhythm, ProgressMeasure::carry_spread};

/// A shot as far as progress is read from it; what is not known is absent.
struct ProgressShot {
    std::size_t lesson = 0;  ///< place in the row of lessons
    std::optional<double> address_share;
    std::optional<double> below_floor_s;
    std::optional<double> tempo_ratio;
    std::optional<double> rhythm_percent;
    std::optional<std::size_t> cell;  ///< of the distance chart, with a carry that the chart keeps
    double carry_m = 0.0;
};

/// A lesson's value: the mean over its shots, or their spread.
struct ProgressPoint {
    std::size_t lesson = 0;
    std::size_t shots = 0;
    double value = 0.0;
};

enum class ProgressVerdict { real, noise };

/// The last lessons against the first ones.
struct ProgressChange {
    std::size_t lessons_each = 0;
    double first = 0.0;       ///< mean of the first lessons
    double last = 0.0;        ///< mean of the last ones
    double detectable = 0.0;  ///< the least change that 95 of 100 times is more than chance
    ProgressVerdict verdict = ProgressVerdict::noise;

    [[nodiscard]] double difference() const { return last - first; }
};

/// One measure over a student's lessons (docs/formulas.md, F58).
struct ProgressSeries {
    ProgressMeasure measure = ProgressMeasure::address_share;
    std::vector<ProgressPoint> points;     ///< lessons with enough shots, in order of time
    std::optional<double> typical_error;   ///< of a lesson's value, from one lesson to the next
    double degrees_of_freedom = 0.0;       ///< of the typical error
    std::optional<ProgressChange> change;  ///< from fewest_lessons on
    /// Control chart of the lessons after the first `baseline`, against the mean of these; from
    /// fewest_lessons_for_chart on.
    std::optional<MovingAverageChart> chart;
    double target = 0.0;
    [[nodiscard]] std::optional<std::size_t> first_beyond() const;  ///< place in points
};

/// Rules of silence (common practice, no source).
inline constexpr std::size_t fewest_shots_a_lesson = 3;
/// Whether so many values are enough to tell a lesson's mean, in progress and in the student's report.
[[nodiscard]] inline bool tells_of_lesson(std::size_t values) {
    return values >= fewest_shots_a_lesson;
}
inline constexpr double fewest_degrees_of_a_spread = 3.0;  ///< carries less cells
inline constexpr std::size_t fewest_lessons = 6;     ///< with fewer, a change hides in the typical error
inline constexpr std::size_t most_lessons_each = 3;  ///< of first and last that are compared
inline constexpr std::size_t fewest_lessons_for_chart = 10;
inline constexpr std::size_t baseline = 5;

/// Every measure over the lessons, in the order of progress_measures. The typical error is that of a lesson's
/// value against the next lesson's, so that both the swings' and the days' differences are in it, and a slow
/// trend is not. Change: Student's t with the degrees of freedom of successive differences.
[[nodiscard]] std::array<ProgressSeries, 5> progress_of_lessons(std::span<const ProgressShot> shots);

/// Of one row of values, each a lesson's.
[[nodiscard]] ProgressSeries progress_of_values(ProgressMeasure measure, std::vector<ProgressPoint> points);

[[nodiscard]] std::string progress_measure_name(ProgressMeasure measure);   ///< address_share, …
[[nodiscard]] std::string progress_measure_words(ProgressMeasure measure);  ///< weight at address, …
/// A value with its unit: "74.3 %", "0.12 s", "2.9 : 1".
[[nodiscard]] std::string progress_value_words(ProgressMeasure measure, double value);
/// What the series says, in a sentence; silence and its reason included. `dates` by place of the lesson.
[[nodiscard]] std::string progress_words(const ProgressSeries& series, std::span<const std::string> dates);

}  // namespace footing
