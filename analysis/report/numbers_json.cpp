#include "analysis/report/numbers_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json finite(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json finite(const std::optional<double>& value) {
    return value ? finite(*value) : Json(nullptr);
}

Json toe_shares(const FootShares& foot) {
    Json all = Json::object();
    if (foot.address) all["address"] = finite(*foot.address);
    if (foot.top) all["top"] = finite(*foot.top);
    if (foot.impact) all["impact"] = finite(*foot.impact);
    if (foot.finish) all["finish"] = finite(*foot.finish);
    return all;
}

Json short_sway(const ShortSway& sway) {
    return {{"window_s", finite(sway.window_s)},
            {"cop_rms_m", finite(sway.cop_rms_m)},
            {"share_sd", finite(sway.share_sd)}};
}

Json rhythm_of(const RhythmMatch& rhythm) {
    return {{"practice_swings", rhythm.practice_swings},
            {"match_percent", finite(rhythm.match_percent)},
            {"practice_match_percent", finite(rhythm.practice_match_percent)},
            {"backswing_difference_s", finite(rhythm.backswing_difference_s)},
            {"backswing_u_s", finite(rhythm.backswing_u_s)},
            {"downswing_difference_s", finite(rhythm.downswing_difference_s)},
            {"downswing_u_s", finite(rhythm.downswing_u_s)},
            {"shape_correlation", finite(rhythm.shape_correlation)}};
}

}  // namespace

void add_numbers(Json& swing_object, const Swing& swing) {
    const SwingNumbers& numbers = swing.numbers;
    if (swing.vertical) swing_object["vertical"]["max_time_s"] = finite(swing.vertical->max_time_s);
    if (const auto& below = numbers.time_below) {
        swing_object["time_below"] = {{"floor", finite(below->floor)},
                                      {"time_s", finite(below->time_s)},
                                      {"surely_s", finite(below->surely_s)},
                                      {"possibly_s", finite(below->possibly_s)}};
    }
    if (const auto& travel = numbers.cop_travel) {
        swing_object["cop_travel"] = {{"path_m", finite(travel->path_m)},
                                      {"range_x_m", finite(travel->range_x_m)},
                                      {"range_y_m", finite(travel->range_y_m)}};
    }
    if (const auto& load_return = numbers.load_return) {
        swing_object["load_return"] = {{"peak_per_s", finite(load_return->peak_per_s)},
                                       {"u_per_s", finite(load_return->u_per_s)},
                                       {"time_s", finite(load_return->time_s)}};
    }
    if (const auto& heel_toe = numbers.heel_toe) {
        swing_object["plate_toe_share"] = {{"lead", toe_shares(heel_toe->lead)},
                                           {"trail", toe_shares(heel_toe->trail)}};
    }
    if (const auto& momentum = numbers.momentum) {
        swing_object["momentum"] = {{"from_s", finite(momentum->from_s)},
                                    {"to_s", finite(momentum->to_s)},
                                    {"residual_bw", finite(momentum->residual_bw)},
                                    {"tolerance_bw", finite(momentum->tolerance_bw)},
                                    {"verdict", momentum->verdict == Closure::closed ? "closed" : "open"}};
    }
    if (numbers.address_sway) swing_object["address_sway"] = short_sway(*numbers.address_sway);
    if (const auto& hold = numbers.finish_hold) {
        swing_object["finish_hold"] = {{"held_s", finite(hold->held_s)},
                                       {"end", hold->end == HoldEnd::left ? "left" : "not_seen"},
                                       {"sway", hold->sway ? short_sway(*hold->sway) : Json(nullptr)}};
    }
    if (const auto& abruptness = numbers.abruptness) {
        swing_object["abruptness"] = {{"rms_per_s3", finite(abruptness->rms_per_s3)},
                                      {"noise_per_s3", finite(abruptness->noise_per_s3)},
                                      {"practice_ratio", finite(abruptness->practice_ratio)}};
    }
    if (numbers.rhythm) {
        swing_object["rhythm"] = rhythm_of(*numbers.rhythm);
    } else if (swing.kind == SwingKind::shot) {
        swing_object["rhythm"] = {{"practice_swings", 0}};
    }
}

}  // namespace footing
