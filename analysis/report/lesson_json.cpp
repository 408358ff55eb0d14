#include "analysis/report/lesson_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "analysis/report/text_safety.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json finite(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json quality_of(const LessonFacts& facts) {
    Json gaps = Json::array();
    for (const TimeSpan& gap : facts.gaps) {
        gaps.push_back({{"from_s", finite(gap.from_s)}, {"to_s", finite(gap.to_s)}});
    }
    return {{"frames", facts.losses.frames},
            {"lost", facts.losses.lost},
            {"damaged", facts.losses.damaged},
            {"gaps", std::move(gaps)},
            {"outcome", outcome_name(facts.outcome)}};
}

Json events_of(const SwingEvents& events) {
    Json all = Json::object();
    for (const NamedEvent& named : named_events) {
        const auto& event = events.*named.member;
        if (!event || !std::isfinite(event->time_s)) continue;
        all[named.name] = {
            {"time_s", event->time_s}, {"u_s", finite(event->u_s)}, {"source", source_name(event->source)}};
    }
    return all;
}

Json shares_of(const SwingShares& shares) {
    Json all = Json::object();
    for (const NamedShare& named : named_shares) {
        const auto& share = shares.*named.member;
        if (!share || !std::isfinite(share->value)) continue;
        all[named.name] = {
            {"value", share->value}, {"u", finite(share->u)}, {"verdict", verdict_name(share->verdict)}};
    }
    return all;
}

Json cop_of(const SwingCop& cop) {
    Json all = Json::object();
    const auto add = [&](const char* name, const std::optional<PointM>& point) {
        if (point && std::isfinite(point->x_m) && std::isfinite(point->y_m)) {
            all[name] = Json::array({point->x_m, point->y_m});
        }
    };
    add("address", cop.address);
    add("top", cop.top);
    add("impact", cop.impact);
    add("finish", cop.finish);
    return all;
}

Json swing_of(const Swing& swing) {
    Json json{{"index", swing.index},
              {"kind", kind_name(swing.kind)},
              {"events", events_of(swing.events)},
              {"lead_share", shares_of(swing.lead_share)}};
    if (swing.tempo) {
        json["tempo"] = {{"backswing_s", finite(swing.tempo->backswing_s)},
                         {"downswing_s", finite(swing.tempo->downswing_s)},
                         {"ratio", finite(swing.tempo->ratio)}};
    }
    if (swing.vertical) {
        json["vertical"] = {{"max_bw", finite(swing.vertical->max_bw)},
                            {"min_bw", finite(swing.vertical->min_bw)}};
    }
    if (swing.smoothness) {
        json["smoothness"] = {{"sparc", finite(swing.smoothness->sparc)},
                              {"ldlj", finite(swing.smoothness->ldlj)}};
    }
    json["cop_m"] = cop_of(swing.cop_m);
    return json;
}

}  // namespace

std::string lesson_json(const LessonResult& lesson) {
    Json swings = Json::array();
    for (const Swing& swing : lesson.swings) swings.push_back(swing_of(swing));
    const Json json{{"file", clean_text(lesson.facts.file)},
                    {"hand", lesson.facts.hand == Hand::right ? "right" : "left"},
                    {"duration_s", finite(lesson.duration_s)},
                    {"rate_hz", finite(lesson.rate_hz)},
                    {"body_weight_n", lesson.body_weight_n ? finite(*lesson.body_weight_n) : Json(nullptr)},
                    {"quality", quality_of(lesson.facts)},
                    {"swings", std::move(swings)}};
    return json.dump(2);
}

}  // namespace footing
