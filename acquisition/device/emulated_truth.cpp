#include "acquisition/device/emulated_truth.h"

#include <nlohmann/json.hpp>

namespace footing {

std::string truth_json(const EmulatedDeviceSettings& settings, const EmulatedTruth& truth,
                       const TransmitCount* count) {
    using nlohmann::ordered_json;
    ordered_json swings = ordered_json::array();
    std::size_t index = 0;
    for (const TrueSwing& swing : truth.swings) {
        const ScriptedSwing& script = swing.script;
        swings.push_back({{"index", ++index},
                          {"kind", script.with_ball ? "shot" : "practice"},
                          {"length", length_name(script.length)},
                          {"quiet_from_s", script.quiet_from_s},
                          {"takeaway_s", script.takeaway_s},
                          {"turnaround_s", swing.turnaround_s},
                          {"top_s", script.top_s},
                          {"impact_s", script.impact_s},
                          {"finish_s", script.finish_s},
                          {"held_to_s", script.held_to_s},
                          {"lead_share",
                           {{"address", swing.address_share},
                            {"turnaround", swing.turnaround_share},
                            {"top", swing.top_share},
                            {"lowest", swing.lowest_share},
                            {"impact", swing.impact_share},
                            {"finish", swing.finish_share}}}});
    }
    ordered_json whole = {
        {"seed", settings.seed},
        {"rate_hz", settings.rate_hz},
        {"hand", truth.golfer.hand == Hand::right ? "right" : "left"},
        {"mass_kg", truth.golfer.mass_kg},
        {"body_weight_n", truth.body_weight_n},
        {"stance_half_width_m", truth.golfer.stance_half_width_m},
        {"trigger", settings.trigger == EmulatedDeviceSettings::Trigger::wired},
        {"on_from_s", truth.on_from_s},
        {"on_to_s", truth.on_to_s},
        {"duration_s", truth.duration_s},
        {"swings", swings},
    };
    if (count != nullptr) {
        whole["line"] = {{"frames", count->frames},
                         {"packets_sent", count->packets},
                         {"packets_lost", count->packets_lost},
                         {"packets_damaged", count->packets_damaged},
                         {"lost_frames", count->lost_frames}};
    }
    return whole.dump(2) + "\n";
}

}  // namespace footing
