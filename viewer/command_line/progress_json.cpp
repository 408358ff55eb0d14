#include "viewer/command_line/progress_json.h"

#include <cmath>
#include <string>

#include "acquisition/frame/simulated_golfer.h"
#include "viewer/command_line/book_json.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

/// JSON knows no infinity; a limit that is not there is null.
Json finite_or_null(double value) {
    return std::isfinite(value) ? Json(value) : Json();
}

Json lessons_json(const StudentProgress& progress) {
    auto lessons = Json::array();
    for (const LessonLine& line : progress.lessons) {
        Json lesson{{"lesson", line.lesson.id},
                    {"date", line.lesson.date},
                    {"simulated", is_simulated_golfer(line.device)}};
        for (const ProgressMeasure measure : progress_measures)
            lesson[progress_measure_name(measure)] = Json();
        lessons.push_back(lesson);
    }
    for (const ProgressSeries& series : progress.series) {
        for (const ProgressPoint& point : series.points)
            lessons[point.lesson][progress_measure_name(series.measure)] = point.value;
    }
    return lessons;
}

Json series_json(const StudentProgress& progress, const ProgressSeries& series) {
    Json json{{"measure", progress_measure_name(series.measure)},
              {"lessons", series.points.size()},
              {"typical_error", or_null(series.typical_error)},
              {"degrees_of_freedom", series.typical_error ? Json(series.degrees_of_freedom) : Json()},
              {"change", nullptr},
              {"chart", nullptr},
              {"words", progress_words(series, progress.dates())}};
    if (series.change) {
        const ProgressChange& change = *series.change;
        json["change"] = {{"lessons_each", change.lessons_each},
                          {"first", change.first},
                          {"last", change.last},
                          {"difference", change.difference()},
                          {"detectable", change.detectable},
                          {"verdict", change.verdict == ProgressVerdict::real ? "real" : "noise"}};
    }
    if (series.chart) {
        const auto beyond = series.first_beyond();
        json["chart"] = {{"target", series.target},
                         {"average", series.chart->average},
                         {"limit", series.chart->limit},
                         {"first_beyond_lesson",
                          beyond ? Json(progress.lessons[series.points[*beyond].lesson].lesson.id) : Json()}};
    }
    return json;
}

Json effects_json(const WeightEffects& effects, DistanceUnit unit) {
    auto carry = Json::array();
    for (const CarryEffect& effect : effects.carry) {
        const bool is_told = effect.silence == Silence::none;
        const auto told = [&](double value) { return is_told ? Json(value) : Json(); };
        carry.push_back({{"weight", weight_measure_name(effect.measure)},
                         {"silence", silence_name(effect.silence)},
                         {"shots", effect.shots},
                         {"cells", effect.cells},
                         {"per_ten_points_m", told(effect.per_ten_points_m)},
                         {"half_width_m", told(effect.half_width_m)},
                         {"p", told(effect.p)},
                         {"more_than_chance", effect.finding == Finding::more_than_chance}});
    }
    const StrikeEffect& strike = effects.strike;
    const bool is_told = strike.silence == Silence::none;
    return {{"carry", carry},
            {"strike",
             {{"silence", silence_name(strike.silence)},
              {"inside_good", strike.counts.a},
              {"inside_poor", strike.counts.b},
              {"outside_good", strike.counts.c},
              {"outside_poor", strike.counts.d},
              {"p", is_told ? Json(strike.test.p) : Json()},
              {"odds_ratio", is_told ? finite_or_null(strike.test.odds_ratio) : Json()},
              {"odds_low", is_told ? Json(strike.test.low) : Json()},
              {"odds_high", is_told ? finite_or_null(strike.test.high) : Json()},
              {"more_than_chance", strike.finding == Finding::more_than_chance}}},
            {"words", weight_effect_words(effects, unit)}};
}

}  // namespace

Json progress_json(const StudentProgress& progress, DistanceUnit unit) {
    auto measures = Json::array();
    for (const ProgressSeries& series : progress.series) measures.push_back(series_json(progress, series));
    auto advice = Json::array();
    for (const Advice& one : progress.advice)
        advice.push_back({{"rule", practice_rule_name(one.rule)}, {"words", one.words}});
    return {{"student", progress.student.name},
            {"unit", unit_name(unit)},
            {"lessons", lessons_json(progress)},
            {"measures", measures},
            {"weight", effects_json(progress.effects, unit)},
            {"practise", advice},
            {"lessons_without_finish", progress.without_finish}};
}

}  // namespace footing
