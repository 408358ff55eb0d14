#include <cmath>
#include <nlohmann/json.hpp>

#include "analysis/report/json_values.h"
#include "analysis/report/lesson_comparison.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json consistency_of(const ComparedLesson& lesson, const Consistency& set) {
    Json json{{"n", set.values.size()}, {"mean", finite_or_null(set.mean)}, {"sd", finite_or_null(set.sd)}};
    if (set.typical_error) json["typical_error"] = finite_or_null(*set.typical_error);
    if (set.detectable_change) json["detectable_change"] = finite_or_null(*set.detectable_change);
    if (set.drifts_from) json["drifts_from_swing"] = lesson.all_indices[*set.drifts_from];
    return json;
}

Json curve_of(const SwingSet& set) {
    const CurveSet& together = *set.together;
    const double reach = together.band_factor / std::sqrt(static_cast<double>(set.curves.size()));
    const auto at = [&](double factor) {
        Json line = Json::array();
        for (std::size_t i = 0; i < together.mean.size(); ++i)
            line.push_back(finite_or_null(together.mean[i] + factor * together.sd[i]));
        return line;
    };
    return {{"swings", set.curves.size()},
            {"landmarks_s", set.axis.landmark_s},
            {"from_impact_s", set.axis.time_s},
            {"mean", at(0.0)},
            {"sd", together.sd},
            {"band_low", at(-reach)},
            {"band_high", at(reach)},
            {"next_low", at(-together.next_factor)},
            {"next_high", at(together.next_factor)}};
}

Json lesson_of(const ComparedLesson& lesson) {
    Json numbers = Json::object();
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        if (lesson.set.numbers[i])
            numbers[compared_numbers()[i].name] = consistency_of(lesson, *lesson.set.numbers[i]);
    }
    Json json{
        {"file", clean_text(lesson.file)}, {"swings", lesson.swing_indices}, {"numbers", std::move(numbers)}};
    if (lesson.set.together) json["curve"] = curve_of(lesson.set);
    if (lesson.set.odd.empty()) return json;
    json["odd"] = Json::array();
    for (const OddCurve& odd : lesson.set.odd) {
        if (odd.p >= odd_below_p) continue;
        json["odd"].push_back({{"swing", lesson.all_indices[lesson.set.curve_places[odd.curve]]},
                               {"p", finite_or_null(odd.p)},
                               {"distance", finite_or_null(odd.distance)},
                               {"from_impact_s", finite_or_null(lesson.set.axis.time_s[odd.point])}});
    }
    return json;
}

Json change_of(const LessonChange& change) {
    Json numbers = Json::object();
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        const auto& number = change.numbers[i];
        if (!number) continue;
        numbers[compared_numbers()[i].name] = {
            {"difference", finite_or_null(number->difference)},
            {"detectable", finite_or_null(number->detectable)},
            {"verdict", number->verdict == ChangeVerdict::real ? "real" : "noise"}};
    }
    return {{"from", change.from}, {"to", change.to}, {"numbers", std::move(numbers)}};
}

const char* kind_name(SetKind kind) {
    return kind == SetKind::shots ? "shots" : kind == SetKind::practice ? "practice" : "all";
}

}  // namespace

std::string comparison_json(const std::vector<ComparedLesson>& lessons, Pairing pairing) {
    Json json = Json::object();
    if (!lessons.empty()) json["kind"] = kind_name(lessons.front().set.kind);
    json["lessons"] = Json::array();
    for (const ComparedLesson& lesson : lessons) json["lessons"].push_back(lesson_of(lesson));
    if (pairing == Pairing::same_swings && lessons.size() == 2) {
        json["agreement"] = Json::object();
        const auto agreements = swing_agreements(lessons[0], lessons[1]);
        for (std::size_t i = 0; i < agreements.size(); ++i) {
            if (!agreements[i]) continue;
            json["agreement"][compared_numbers()[i].name] = {{"pairs", agreements[i]->pairs},
                                                             {"bias", finite_or_null(agreements[i]->bias)},
                                                             {"sd", finite_or_null(agreements[i]->sd)},
                                                             {"low", finite_or_null(agreements[i]->low)},
                                                             {"high", finite_or_null(agreements[i]->high)}};
        }
        return json.dump(2);
    }
    json["changes"] = Json::array();
    for (const LessonChange& change : lesson_changes(lessons)) json["changes"].push_back(change_of(change));
    json["icc"] = Json::object();
    const auto correlations = lesson_correlations(lessons);
    for (std::size_t i = 0; i < correlations.size(); ++i) {
        if (correlations[i]) json["icc"][compared_numbers()[i].name] = finite_or_null(*correlations[i]);
    }
    return json.dump(2);
}

}  // namespace footing
