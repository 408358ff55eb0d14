#include "analysis/report/lesson_json.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "analysis/pressure/mat_summary.h"
#include "analysis/report/json_values.h"
#include "analysis/report/numbers_json.h"
#include "analysis/report/text_safety.h"
#include "analysis/swing/mass_path.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json quality_of(const LessonFacts& facts) {
    Json gaps = Json::array();
    for (const TimeSpan& gap : facts.gaps) {
        gaps.push_back({{"from_s", finite_or_null(gap.from_s)}, {"to_s", finite_or_null(gap.to_s)}});
    }
    Json quality{{"frames", facts.losses.frames},
                 {"lost", facts.losses.lost},
                 {"damaged", facts.losses.damaged},
                 {"gaps", std::move(gaps)},
                 {"outcome", outcome_name(facts.outcome)}};
    if (facts.impossible_frames > 0) quality["impossible"] = facts.impossible_frames;
    if (facts.clock) {
        const auto& residual_ms = facts.clock->residual_ms;
        quality["clock"] = {{"drift_ppm", finite_or_null(facts.clock->drift_ppm)},
                            {"residual_ms", residual_ms ? finite_or_null(*residual_ms) : Json(nullptr)},
                            {"jitter_ms", finite_or_null(facts.clock->jitter_ms)}};
        if (facts.clock->joined_ms) quality["clock"]["joined_ms"] = finite_or_null(*facts.clock->joined_ms);
    }
    return quality;
}

Json events_of(const SwingEvents& events) {
    Json all = Json::object();
    for (const NamedEvent& named : named_events) {
        const auto& event = events.*named.member;
        if (!event || !std::isfinite(event->time_s)) continue;
        all[named.name] = {{"time_s", event->time_s},
                           {"u_s", finite_or_null(event->u_s)},
                           {"source", source_name(event->source)}};
    }
    return all;
}

Json shares_of(const SwingShares& shares) {
    Json all = Json::object();
    for (const NamedShare& named : named_shares) {
        const auto& share = shares.*named.member;
        if (!share || !std::isfinite(share->value)) continue;
        all[named.name] = {{"value", share->value},
                           {"u", finite_or_null(share->u)},
                           {"verdict", verdict_name(share->verdict)}};
    }
    return all;
}

Json cop_of(const SwingCop& cop) {
    Json all = Json::object();
    for (const NamedCop& named : named_cops) {
        const auto& point = cop.*named.member;
        if (point && std::isfinite(point->x_m) && std::isfinite(point->y_m))
            all[named.name] = Json::array({point->x_m, point->y_m});
    }
    return all;
}

Json degrees_of(const std::optional<double>& angle_rad) {
    return angle_rad ? finite_or_null(*angle_rad * 180.0 / std::numbers::pi) : Json(nullptr);
}

Json stance_of(const SwingStance& stance) {
    Json json{{"told_by", told_name(stance.told)}};
    if (stance.told != FeetTold::areas) {
        json["why"] = midline_reason(stance.told);
        return json;
    }
    json["width_m"] = finite_or_null(stance.width_m);
    json["left_angle_deg"] = degrees_of(stance.left_toe_out_rad);
    json["right_angle_deg"] = degrees_of(stance.right_toe_out_rad);
    json["left_toe_out_rad"] = finite_or_null(stance.left_toe_out_rad);
    json["right_toe_out_rad"] = finite_or_null(stance.right_toe_out_rad);
    return json;
}

Json foot_of(const SwingFoot& foot) {
    return {{"heel_toe", foot_shares_json(foot.toes)}, {"inside_outside", foot_shares_json(foot.outside)}};
}

Json mat_of(const LessonResult& lesson) {
    const MatSummary summary = mat_summary(lesson.trace);
    return {{"stood_s", summary.stood_s},
            {"midline_s", summary.one_area_s + summary.in_a_line_s},
            {"other_s", summary.other_s},
            {"most_other_n", summary.most_other_n},
            {"clipped_s", summary.clipped_s},
            {"most_clipped", summary.most_clipped},
            {"dead_elements", lesson.facts.dead_elements}};
}

/// By the inverted pendulum, stance frame: an estimate, good for slow sway.
Json mass_of(const LessonResult& lesson, const Swing& swing) {
    const Pendulum& pendulum = *lesson.centre_of_mass;
    return {{"model", "inverted pendulum"},
            {"stature_m", finite_or_null(pendulum.stature_m)},
            {"natural_frequency_hz", finite_or_null(natural_frequency(pendulum) / (2.0 * std::numbers::pi))},
            {"at_m", cop_of(mass_at_events(lesson.trace, lesson.facts.hand, pendulum, swing.events))}};
}

Json calibration_of(const LessonFacts& facts) {
    const CalibrationFacts& known = facts.calibration_facts;
    const auto date = [](const std::string& text) {
        return text.empty() ? Json(nullptr) : Json(clean_text(text));
    };
    return {{"state", calibration_state_name(known.state)},
            {"words", clean_text(facts.calibration)},
            {"made", date(known.made)},
            {"valid_until", date(known.valid_until)},
            {"load_relative_u", finite_or_null(known.load_relative_u)},
            {"ratio_relative_u", finite_or_null(known.ratio_relative_u)}};
}

Json strikes_of(const LessonResult& lesson) {
    Json strikes = Json::array();
    for (const double at_s : lesson.strikes_without_swing_s) strikes.push_back(finite_or_null(at_s));
    return strikes;
}

Json swing_of(const Swing& swing) {
    Json json{{"index", swing.index},
              {"kind", kind_name(swing.kind)},
              {"events", events_of(swing.events)},
              {"lead_share", shares_of(swing.lead_share)}};
    if (swing.kind_source) json["kind_source"] = source_name(*swing.kind_source);
    if (const auto& ripple = swing.strike_ripple) {
        json["strike_ripple"] = {{"peak_n", finite_or_null(ripple->peak_n)},
                                 {"usual_n", finite_or_null(ripple->usual_n)},
                                 {"most_n", finite_or_null(ripple->most_n)},
                                 {"began_s", finite_or_null(ripple->began_s)},
                                 {"body_n", finite_or_null(ripple->body_n)}};
    }
    if (Json found = events_of(swing.found_events); !found.empty() || swing.found_kind) {
        if (swing.found_kind) found["kind"] = kind_name(*swing.found_kind);
        json["found"] = std::move(found);
    }
    if (swing.tempo) {
        json["tempo"] = {{"backswing_s", finite_or_null(swing.tempo->backswing_s)},
                         {"downswing_s", finite_or_null(swing.tempo->downswing_s)},
                         {"ratio", finite_or_null(swing.tempo->ratio)}};
    }
    if (swing.vertical) {
        json["vertical"] = {{"max_bw", finite_or_null(swing.vertical->max_bw)},
                            {"min_bw", finite_or_null(swing.vertical->min_bw)}};
    }
    if (swing.smoothness) {
        json["smoothness"] = {{"sparc", finite_or_null(swing.smoothness->sparc)},
                              {"ldlj", finite_or_null(swing.smoothness->ldlj)}};
    }
    json["cop_m"] = cop_of(swing.cop_m);
    json["cop_u_m"] = cop_of(swing.cop_u_m);
    json["lead_cop_m"] = cop_of(swing.lead.cop_m);
    json["lead_cop_u_m"] = cop_of(swing.lead.cop_u_m);
    json["trail_cop_m"] = cop_of(swing.trail.cop_m);
    json["trail_cop_u_m"] = cop_of(swing.trail.cop_u_m);
    if (swing.stance) json["stance"] = stance_of(*swing.stance);
    if (swing.feet)
        json["foot"] = {{"left", foot_of(swing.feet->left)}, {"right", foot_of(swing.feet->right)}};
    add_numbers(json, swing);
    return json;
}

}  // namespace

std::string lesson_json(const LessonResult& lesson) {
    Json swings = Json::array();
    for (const Swing& swing : lesson.swings) {
        swings.push_back(swing_of(swing));
        if (lesson.centre_of_mass) swings.back()["centre_of_mass_estimate"] = mass_of(lesson, swing);
    }
    Json json{{"file", clean_text(lesson.facts.file)},
              {"hand", lesson.facts.hand == Hand::right ? "right" : "left"},
              {"duration_s", finite_or_null(lesson.duration_s)},
              {"rate_hz", finite_or_null(lesson.rate_hz)},
              {"body_weight_n", lesson.body_weight_n ? finite_or_null(*lesson.body_weight_n) : Json(nullptr)},
              {"quality", quality_of(lesson.facts)},
              {"calibration", calibration_of(lesson.facts)},
              {"sure", finite_or_null(lesson.sure)},
              {"swings", std::move(swings)},
              {"strikes_without_swing_s", strikes_of(lesson)},
              {"swings_as_other_hand", lesson.swings_as_other_hand}};
    if (!lesson.trace.mat.empty()) json["mat"] = mat_of(lesson);
    return json.dump(2);
}

}  // namespace footing
