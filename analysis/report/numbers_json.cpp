#include "analysis/report/numbers_json.h"

#include <nlohmann/json.hpp>

#include "analysis/report/hold_end_name.h"
#include "analysis/report/json_values.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json short_sway(const ShortSway& sway) {
    return {{"window_s", finite_or_null(sway.window_s)},
            {"cop_rms_m", finite_or_null(sway.cop_rms_m)},
            {"share_sd", finite_or_null(sway.share_sd)}};
}

Json rhythm_of(const RhythmMatch& rhythm) {
    return {{"practice_swings", rhythm.practice_swings},
            {"match_percent", finite_or_null(rhythm.match_percent)},
            {"practice_match_percent", finite_or_null(rhythm.practice_match_percent)},
            {"backswing_difference_s", finite_or_null(rhythm.backswing_difference_s)},
            {"backswing_u_s", finite_or_null(rhythm.backswing_u_s)},
            {"downswing_difference_s", finite_or_null(rhythm.downswing_difference_s)},
            {"downswing_u_s", finite_or_null(rhythm.downswing_u_s)},
            {"shape_correlation", finite_or_null(rhythm.shape_correlation)}};
}

}  // namespace

void add_numbers(Json& swing_object, const Swing& swing) {
    const SwingNumbers& numbers = swing.numbers;
    if (swing.vertical) swing_object["vertical"]["max_time_s"] = finite_or_null(swing.vertical->max_time_s);
    if (const auto& below = numbers.time_below) {
        swing_object["time_below"] = {{"floor", finite_or_null(below->floor)},
                                      {"time_s", finite_or_null(below->time_s)},
                                      {"surely_s", finite_or_null(below->surely_s)},
                                      {"possibly_s", finite_or_null(below->possibly_s)}};
    }
    if (const auto& travel = numbers.cop_travel) {
        swing_object["cop_travel"] = {{"path_m", finite_or_null(travel->path_m)},
                                      {"range_x_m", finite_or_null(travel->range_x_m)},
                                      {"range_y_m", finite_or_null(travel->range_y_m)}};
    }
    if (const auto& load_return = numbers.load_return) {
        swing_object["load_return"] = {{"peak_per_s", finite_or_null(load_return->peak_per_s)},
                                       {"u_per_s", finite_or_null(load_return->u_per_s)},
                                       {"time_s", finite_or_null(load_return->time_s)}};
    }
    if (const auto& heel_toe = numbers.heel_toe) {
        swing_object["plate_toe_share"] = {{"lead", foot_shares_json(heel_toe->lead)},
                                           {"trail", foot_shares_json(heel_toe->trail)}};
    }
    if (const auto& momentum = numbers.momentum) {
        swing_object["momentum"] = {{"from_s", finite_or_null(momentum->from_s)},
                                    {"to_s", finite_or_null(momentum->to_s)},
                                    {"residual_bw", finite_or_null(momentum->residual_bw)},
                                    {"tolerance_bw", finite_or_null(momentum->tolerance_bw)},
                                    {"verdict", momentum->verdict == Closure::closed ? "closed" : "open"}};
    }
    if (numbers.address_sway) swing_object["address_sway"] = short_sway(*numbers.address_sway);
    if (const auto& hold = numbers.finish_hold) {
        swing_object["finish_hold"] = {{"held_s", finite_or_null(hold->held_s)},
                                       {"end", hold_end_name(hold->end)},
                                       {"sway", hold->sway ? short_sway(*hold->sway) : Json(nullptr)}};
    }
    if (const auto& abruptness = numbers.abruptness) {
        swing_object["abruptness"] = {{"rms_per_s3", finite_or_null(abruptness->rms_per_s3)},
                                      {"noise_per_s3", finite_or_null(abruptness->noise_per_s3)},
                                      {"practice_ratio", finite_or_null(abruptness->practice_ratio)}};
    }
    if (numbers.rhythm) {
        swing_object["rhythm"] = rhythm_of(*numbers.rhythm);
    } else if (numbers.practice_swings_before) {
        swing_object["rhythm"] = {{"practice_swings", *numbers.practice_swings_before}};
    }
}

}  // namespace footing
